import pytest
from harbour_closer import harbour_closer

from guide.trade.sheet.sheet import Sheet


@pytest.fixture
def harbour() -> Sheet:
    return harbour_closer()
