"""The whole moment curve of 181 angles against a plain loop over the same angles.

Run by hand: python -m tests.benchmarks.moment_curve
Prints the time of one curve, that of a plain loop of the same trigonometry as a yardstick, and their ratio;
1 where the ratio is above `MOST`. Read the ratio: the milliseconds are of one machine.
"""

import math
import sys
import timeit

from guide.trade.arm.geometry import Arm
from guide.trade.arm.moments import moments
from guide.trade.arm.spring import spring_of
from guide.trade.arm.usual_arm import usual_geometry

MOST = 20.0
TARGET_MS = 2.0


def plain_loop() -> float:
    """181 angles, each with the two trigonometric values that no solution can do without."""
    total = 0.0
    for deg in range(181):
        theta = math.radians(deg)
        total += math.cos(theta) * math.sin(theta) + math.atan2(theta, 1.0)
    return total


def main() -> int:
    """Print the figures; 1 where a target is missed."""
    spring = spring_of(3)
    geometry = {mount: usual_geometry(mount) for mount in ("regular", "top-jamb", "parallel")}
    yardstick = min(timeit.repeat(plain_loop, number=200, repeat=7)) / 200
    worst = 0
    for mount, closer in geometry.items():
        spent = min(
            timeit.repeat(lambda c=closer: moments(Arm(c), spring), number=100, repeat=7)  # type: ignore[misc]
        )
        spent /= 100
        rows = len(moments(Arm(closer), spring))
        print(
            f"{mount:<9} {rows} rows  {spent * 1e3:.3f} ms (target {TARGET_MS} ms)  "
            f"plain loop {yardstick * 1e3:.3f} ms  ratio {spent / yardstick:.1f}"
        )
        worst = max(worst, int(spent / yardstick > MOST or spent * 1e3 > TARGET_MS))
    return worst


if __name__ == "__main__":
    sys.exit(main())
