"""What a check of all shipped procedures costs: `hingeside check procedures/*.yaml`, imports and start included.

Run it by itself: `python -m tests.benchmarks.check_shipped`. Processor time of whole processes, from compiled
bytecode, because that does not depend on what else the machine does; the least and the median of some rounds, by
turns with the interpreter alone, to which its ratio stands beside it. Ends with 1 where the median is above the target.
"""

import os
import statistics
import subprocess
import sys
import tempfile
from pathlib import Path

ROUNDS = 11
TARGET_MS = 1000.0
ROOT = Path(__file__).parents[2]
HINGESIDE = "from guide.cli.main import main; raise SystemExit(main())"


def processor_ms(command: list[str]) -> float:
    """User and system time of one process [ms]. Raises SystemExit where it did not end with 0."""
    process = subprocess.Popen(
        command, cwd=ROOT, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True
    )
    assert process.stderr is not None
    told = process.stderr.read()
    _, status, used = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode:
        raise SystemExit(f"{command[-1]}: ended with {process.returncode}. {told}")
    return 1000 * (used.ru_utime + used.ru_stime)


def main() -> int:
    """Measure by turns and print."""
    os.environ["HINGESIDE_HOME"] = tempfile.mkdtemp(prefix="check-shipped-")
    files = sorted(str(path.relative_to(ROOT)) for path in (ROOT / "procedures").glob("*.yaml"))
    commands = {
        "the interpreter": [sys.executable, "-c", "pass"],
        f"check of {len(files)} files": [sys.executable, "-c", HINGESIDE, "check", *files],
    }
    for command in commands.values():
        processor_ms(command)  # bytecode
    took: dict[str, list[float]] = {name: [] for name in commands}
    for _ in range(ROUNDS):
        for name, command in commands.items():
            took[name].append(processor_ms(command))
    medians = [statistics.median(all_of) for all_of in took.values()]
    print(f"{'':<24}{'least':>8}{'median':>8}{'to start':>10}")
    for (name, all_of), median in zip(took.items(), medians, strict=True):
        print(f"{name:<24}{min(all_of):>8.1f}{median:>8.1f}{median / medians[0]:>10.2f}")
    met = medians[-1] <= TARGET_MS
    print(f"target: {TARGET_MS:.0f} ms of processor; {'met' if met else 'missed'}")
    return int(not met)


if __name__ == "__main__":
    sys.exit(main())
