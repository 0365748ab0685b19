"""What one computation costs from the command line beyond the start of the interpreter.

Run it by itself: `python -m tests.benchmarks.work_ratios`. Processor time of whole processes, from compiled bytecode
and with the sheet in the cache, because that does not depend on what else the machine does; the least and the median
of some rounds, by turns. Beside each stands its ratio to the interpreter alone, and to an interpreter that imports only
what every computation takes from the standard library (fractions, re, typing). Ends with 1 where a median is above the
target.
"""

import os
import statistics
import subprocess
import sys
import tempfile

ROUNDS = 11
TARGET = 10.0
"""Starts of the bare interpreter. Of these, argparse, json and the standard data classes cost some two."""
HINGESIDE = "from guide.cli.main import main; raise SystemExit(main())"
LIBRARY = "import fractions, re, typing"

SHEET = ("sheet=generic-a", "mount=parallel")
ARM = (
    *("mount=regular", "pinion_along=7 in", "pinion_out=1 1/8 in", "shoe_along=11 7/8 in"),
    *("shoe_out=3/4 in", "main_arm=9 1/2 in", "forearm=8 1/2 in", "thickness=1 3/4 in"),
    *("edge_offset=0 in", "face_offset=0 in"),
)
ASKED: dict[str, tuple[str, ...]] = {
    "chord": ("width=36 in", "angle=12 deg"),
    "handing": ("hinges=left", "swing=away"),
    "spring-size": ("width=36 in", "mount=parallel"),
    "pressure-force": (
        *("closer_force=5 lbf", "width=36 in", "height=84 in", "handle=3 in", "pressure=25 Pa"),
    ),
    "tap-drill": ("thread=1/4-20",),
    "screw-withdrawal": ("screw=10", "gravity=0.45"),
    "fasteners": ("door=wood", "frame=wood", "core=solid", "thickness=1 3/4 in"),
    "linkage": (*ARM, "at=45 deg"),
    "moments": (*ARM, "size=3"),
    "moments, from a sheet": (*SHEET, "size=3"),
    "holes": (*SHEET, "hand=RH", "hinge=butt", "range=130 deg"),
    "sixteenth": (*SHEET, "hinge=butt", "range=130 deg"),
    "marks": (
        *(*SHEET, "hinge=butt", "range=130 deg", "body_along_read=7 in", "body_datum_read=1 in"),
        *("shoe_along_read=12 in", "shoe_datum_read=1 in"),
    ),
    "size-and-force": (*SHEET, "width=36 in"),
    "backcheck": (*SHEET, "feels=hard"),
    "access-and-fire": ("width=36 in", "s_90_12=5.5 s", "force=4 lbf", "latches=yes", "fire=no"),
    "swing": (
        *("width=36 in", "mass=50 kg", "height=84 in", "mount=regular", "size=3"),
        *("sweep=1.25", "latch=1.25"),
    ),
    "tune": ("width=36 in", "mount=regular", "size=3", "reading=4.1,1.2,yes,no,4.8 lbf"),
    "tune-next": (
        *("width=36 in", "mount=regular", "size=3", "fire=no", "exterior=no"),
        "reading=latches,5.9 s,1.5 s,4.8 lbf",
    ),
}


def processor_ms(command: list[str]) -> float:
    """User and system time of one process [ms]."""
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)
    assert process.stderr is not None
    told = process.stderr.read()
    _, status, used = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode:
        raise SystemExit(f"{command}: {told.decode()}")
    return 1000 * (used.ru_utime + used.ru_stime)


def main() -> int:
    """Measure by turns and print."""
    os.environ["HINGESIDE_HOME"] = tempfile.mkdtemp(prefix="work-ratios-")
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)  # or each start would compile all it loads
    bare = [sys.executable, "-c", "pass"]
    commands = {"the interpreter": bare, "with the library": [sys.executable, "-c", LIBRARY]}
    for name, inputs in ASKED.items():
        verb = name.partition(",")[0]
        commands[name] = [sys.executable, "-c", HINGESIDE, "work", verb, *inputs]
    for command in commands.values():
        processor_ms(command)  # bytecode and cache
    took: dict[str, list[float]] = {name: [] for name in commands}
    for _ in range(ROUNDS):
        for name, command in commands.items():
            took[name].append(processor_ms(command))
    start = statistics.median(took["the interpreter"])
    library = statistics.median(took["with the library"])
    missed = []
    print(f"{'':<24}{'least':>8}{'median':>8}{'beyond':>8}{'to start':>10}{'to library':>12}")
    for name, all_of in took.items():
        median = statistics.median(all_of)
        beyond = median - start
        print(
            f"{name:<24}{min(all_of):>8.1f}{median:>8.1f}{beyond:>8.1f}"
            f"{median / start:>10.2f}{median / library:>12.2f}"
        )
        if median > TARGET * start:
            missed.append(name)
    print(f"target: {TARGET:.0f} starts; above it: {', '.join(missed) or 'none'}")
    return int(bool(missed))


if __name__ == "__main__":
    sys.exit(main())
