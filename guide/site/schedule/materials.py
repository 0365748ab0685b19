"""What leaf and frame are made of, as schedules abbreviate it. Common practice."""

from guide.site.schedule.reading import CORE, Reading
from guide.site.schedule.words import Word, asks, gives, read_words

SPECIAL = (
    gives(r"lead[ -]?lined|lead", special="lead"),
    gives(
        r"stc[ -]?\d{2}|acoustic(?:al)?|sound(?:[ -]?(?:rated|proof))?|rw ?\d{2}(?: ?db)?",
        special="acoustic",
    ),
    gives(
        r"bullet[ -]?resist(?:ant|ing)|ballistic|storm|hurricane|tornado",
        special="listed",
    ),
)
"""Leaves on which no surface closer goes."""


def _core(pattern: str, label: str) -> Word:
    return gives(pattern, **{CORE: label})


_CORES = (
    _core(r"mineral(?:[ -]core)?|mcd", "mineral"),
    _core(
        r"particle ?board(?:[ -]core)?|particle core|chip ?board(?:[ -]core)?|flax(?: ?board)?",
        "particleboard",
    ),
    _core(r"honey ?comb(?:[ -]core)?", "honeycomb"),
    _core(r"polystyrene|polyurethane|insulated core|foam(?:[ -]core)?", "foam"),
    _core(r"(?:steel[ -])?stiffened(?: core)?|steel ribs", "stiffened"),
    _core(r"hollow[ -]core", "hollow"),
    _core(r"(?:stave|lumber|solid timber|solid wood)(?:[ -]core)?|blockboard", "solid-wood"),
)
_SOLID = (
    "solid core is solid timber, particleboard or another board: what is behind the face where the"
    " screws go?"
)
_SOLID_CORE = asks(r"solid[ -]core|sc", _SOLID, "behind")
_SOLID_WOOD = Word(
    gives(r"scwd|scw|sc[ -]wd|solid[ -]core wood").pattern, {"leaf": "wood"}, _SOLID, "behind"
)
_STEEL = r"hmd?|h\.m\.|hollow[ -]metal(?: doors?)?|galv(?:ani[sz]ed)?(?: steel)?|steel|stl"
_ALUMINIUM = r"al(?:um)?(?:inium|inum)?\.?|store ?front(?: door)?"
_WOODS = r"wd|wood|timber|oak|maple|birch|ash|beech|walnut|cherry|pine|softwood|hardwood"
_LEAF = (
    *SPECIAL,
    *_CORES,
    gives(rf"{_STEEL}|insulated (?:metal|steel)", leaf="steel"),
    gives(rf"(?:{_ALUMINIUM})(?: ?[/&,-]| and)? ?(?:gl(?:ass|azed)?)?", leaf="aluminium"),
    _SOLID_WOOD,
    _SOLID_CORE,
    gives(
        rf"(?:{_WOODS}|p\.?[ -]?lam|plastic laminate|laminate)(?: (?:veneer|faced?|door))?|wdv|veneer",
        leaf="wood",
    ),
    gives(r"all[ -]glass|frameless(?: glass)?|(?:tempered |toughened )?glass|gl", special="glass"),
)
_FILLED = r"grouted(?: full| solid)?|mortar[ -]filled|grout(?: full| filled| solid)?"
_FRAME = (
    gives(
        rf"(?:{_STEEL}|hmf|metal)[ ,/-]*(?:\(?(?:{_FILLED})\)?)(?: frame)?|{_FILLED}",
        frame="grouted",
    ),
    gives(rf"{_STEEL}|hmf|pressed (?:metal|steel)", frame="steel"),
    gives(_ALUMINIUM, frame="aluminium"),
    gives(_WOODS, frame="wood"),
)
FILLED_FRAME = gives(rf"(?:{_FILLED})(?: frame)?", frame="grouted")
_PREPARED = (
    gives(
        r"drilled (?:and|&) tapped|drill (?:and|&) tap|d ?& ?t|factory prep(?:ped|ared)?|tapped",
        prep="tapped",
    ),
    gives(
        r"(?:closer )?reinf(?:orce(?:d|ment))?\.?(?: (?:only|for (?:surface )?closer))?",
        prep="reinforced",
    ),
    gives(r"no(?:ne| prep(?:aration)?)?|unprepared|blank", prep="plain"),
)


def read_leaf(text: str) -> Reading:
    """What the leaf is made of, and its core if the text names it."""
    return read_words(text, _LEAF)


def read_core(text: str) -> Reading:
    """What is inside the leaf."""
    return read_words(text, (*SPECIAL, *_CORES, _SOLID_CORE))


def read_frame(text: str) -> Reading:
    """What the frame is made of."""
    return read_words(text, _FRAME)


def read_preparation(text: str) -> Reading:
    """How leaf and frame are prepared for the closer."""
    return read_words(text, _PREPARED)
