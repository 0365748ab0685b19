import pytest

from guide.trade.sheet.sheet import Sheet
from tests.trade.harbour_closer import harbour_closer


@pytest.fixture
def harbour() -> Sheet:
    return harbour_closer()
