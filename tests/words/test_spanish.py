"""Spanish: what a fitter says, what it means, and that the mouth and the ear agree.

Number words after the Diccionario de la lengua española (RAE), from memory.
"""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide.measures import Quantity
from guide.words.language_file import sayings
from guide.words.spoken import grammar_for, language, neighbours, read_back, say

SPANISH = language("spanish")


def inches(text: str) -> Quantity:
    return Quantity(Fraction(text), "in")


@pytest.mark.parametrize(
    ("words", "meant"),
    [
        ("treinta y cinco y siete octavos", inches("287/8")),
        ("treinta y cinco pulgadas y siete octavos", inches("287/8")),
        ("treinta y seis pulgadas", inches("36")),
        ("una pulgada", inches("1")),
        ("una pulgada y media", inches("3/2")),
        ("media pulgada", inches("1/2")),
        ("tres cuartos de pulgada", inches("3/4")),
        ("un octavo de pulgada", inches("1/8")),
        ("siete dieciseisavos", inches("7/16")),
        ("veintiuno y un treintaidosavo", inches("673/32")),
        ("cinco treinta y dosavos", inches("5/32")),
        ("treinta y tres sobre sesenta y cuatro", inches("33/64")),
        ("treinta y uno sobre treinta y dos", inches("31/32")),
        ("cero coma ocho siete cinco", inches("7/8")),
        ("tres cinco punto cinco", inches("71/2")),
        ("tres pies y una pulgada y media", inches("75/2")),
        ("dos pies once pulgadas", inches("35")),
        ("siete pies", Quantity(Fraction(7), "ft")),
        ("novecientos once milímetros", Quantity(Fraction(911), "mm")),
        ("novecientos once milimetros", Quantity(Fraction(911), "mm")),
        ("mil doscientos veintidós milímetros", Quantity(Fraction(1222), "mm")),
        ("dos mil cien milímetros", Quantity(Fraction(2100), "mm")),
        ("noventa y uno coma cuatro centímetros", Quantity(Fraction(457, 5), "cm")),
        ("dos metros", Quantity(Fraction(2), "m")),
        ("cien milímetros", Quantity(Fraction(100), "mm")),
        ("ciento un milímetros", Quantity(Fraction(101), "mm")),
        ("veintiún milímetros", Quantity(Fraction(21), "mm")),
        ("quinientos milímetros", Quantity(Fraction(500), "mm")),
    ],
)
def test_lengths(words: str, meant: Quantity) -> None:
    understood = grammar_for("length", in_language="spanish").parse(words)
    assert understood.meaning is not None, understood
    assert understood.meaning.value == meant


@pytest.mark.parametrize(
    ("kind", "words", "meant"),
    [
        ("angle", "noventa grados", Quantity(Fraction(90), "deg")),
        ("angle", "ciento ochenta", Quantity(Fraction(180), "deg")),
        ("force", "cuatro libras y media", Quantity(Fraction(9, 2), "lbf")),
        ("force", "cuatro coma cinco libras de fuerza", Quantity(Fraction(9, 2), "lbf")),
        ("force", "veintidós newtons", Quantity(Fraction(22), "N")),
        ("time", "cinco segundos y medio", Quantity(Fraction(11, 2), "s")),
        ("time", "seis coma dos segundos", Quantity(Fraction(31, 5), "s")),
        ("time", "un minuto y diez segundos", Quantity(Fraction(70), "s")),
        ("mass", "cuarenta y cinco kilos", Quantity(Fraction(45), "kg")),
        ("pressure", "veinticinco pascales", Quantity(Fraction(25), "Pa")),
        ("moment", "dieciocho newtons metro", Quantity(Fraction(18), "N m")),
        ("count", "tres", 3),
        ("number", "sesenta y siete", Fraction(67)),
    ],
)
def test_other_kinds(kind: str, words: str, meant: object) -> None:
    understood = grammar_for(kind, in_language="spanish").parse(words)
    assert understood.meaning is not None, understood
    assert understood.meaning.value == meant


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        ("length", "treinta y"),
        ("length", "treinta cinco"),
        ("length", "veinte y cinco octavo"),
        ("length", "pulgadas"),
        ("length", "tres pies y trece pulgadas"),
        ("length", "siete octavas"),
        ("length", "ciento"),
        ("length", "cien uno milímetros"),
        ("length", "mil mil"),
        ("length", "coma"),
        ("length", "thirty five inches"),
        ("length", "35 pulgadas"),
        ("length", "cinco segundos"),
        ("length", "tres coma"),
        ("angle", "noventa pulgadas"),
        ("angle", "noventa grados y"),
        ("force", "cinco milímetros"),
        ("time", "cinco grados"),
        ("time", "un minuto y setenta segundos"),
        ("count", "tres y medio"),
        ("number", "sesenta setenta"),
    ],
)
def test_refused(kind: str, words: str) -> None:
    assert grammar_for(kind, in_language="spanish").parse(words).meaning is None


@given(st.integers(0, 120 * 64))
def test_every_sixty_fourth_is_said_and_understood(sixty_fourths: int) -> None:
    value = inches(f"{sixty_fourths}/64")
    understood = grammar_for("length", in_language="spanish").parse(say(value, SPANISH))
    assert understood.meaning is not None
    assert understood.meaning.value == value


@given(
    st.sampled_from(
        [("length", "mm", 3000), ("angle", "deg", 180), ("force", "lbf", 60), ("time", "s", 60)]
    ),
    st.data(),
)
def test_every_tenth_of_a_unit_is_said_and_understood(
    of: tuple[str, str, int], data: st.DataObject
) -> None:
    kind, unit, most = of
    value = Quantity(Fraction(data.draw(st.integers(0, 10 * most)), 10), unit)
    understood = grammar_for(kind, in_language="spanish").parse(say(value, SPANISH))
    assert understood.meaning is not None
    assert understood.meaning.value == value


def test_a_unit_says_its_gender() -> None:
    assert say(inches("1"), SPANISH) == "una pulgada"
    assert say(Quantity(Fraction(21), "mm"), SPANISH) == "veintiún milímetros"
    assert say(Quantity(Fraction(201), "lbf"), SPANISH) == "doscientas una libras"


def test_sesenta_and_setenta_are_told_apart() -> None:
    sixty = Quantity(Fraction(60), "deg")
    assert read_back(sixty, SPANISH) == "sesenta, seis cero grados"
    assert Quantity(Fraction(70), "deg") in neighbours(sixty, SPANISH)


@pytest.mark.parametrize("name", ["spanish", "korean"])
def test_every_command_has_words_of_its_own(name: str) -> None:
    english, other = sayings("english"), sayings(name)
    declined, other_declined = sayings("english", "declined"), sayings(name, "declined")
    assert set(other) == set(english)
    assert set(other_declined) == set(declined)
    said = [
        words
        for one in (*other.values(), *other_declined.values())
        for words in (one.word, *one.also)
    ]
    assert len(said) == len(set(said))
    commands = [*other, *other_declined]
    grammar = grammar_for("nothing", commands=commands, in_language=name)
    for command, words in {**other, **other_declined}.items():
        for saying in (words.word, *words.also):
            meaning = grammar.parse(saying).meaning
            assert meaning is not None
            assert meaning.value == command
