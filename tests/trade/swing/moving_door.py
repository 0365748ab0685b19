"""The moving door solved anew with SciPy, straight from the equation of motion, angle and speed in time."""

import math
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy.integrate import solve_ivp

from guide.trade.arm.geometry import Arm
from guide.trade.arm.spring import spring_of
from guide.trade.swing.model import SwingingDoor

State = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Solved:
    """What SciPy finds of one closing."""

    s_90_12: float | None
    s_12_0: float | None
    edge_speed: float
    stopped_at: float


def solve_closing(door: SwingingDoor, start: float = 90.0) -> Solved:
    """Integrate from rest at `start` [deg], anew from every angle at which a moment jumps or bends."""
    arm, spring = Arm(door.geometry), spring_of(door.size)
    inertia = door.mass * door.width**2 / 3
    areas = (
        0.04 + 0.96 * door.valves.sweep / 1.25,
        0.04 + 0.96 * door.valves.latch / 1.25,
    )
    sweep, latch = 100 / areas[0] ** 2, 80 / areas[1] ** 2
    low, high = door.ports.latch
    delay_low, delay_high = door.ports.delay
    delay = 0.0
    if door.valves.delay is not None:
        delay = 100 / (0.12 * (0.04 + 0.96 * door.valves.delay / 0.5)) ** 2

    def rates(_time: float, state: State, latching: bool) -> list[float]:
        theta, speed = float(state[0]), float(state[1])
        deg = math.degrees(theta)
        place = arm.at(deg)
        assert place is not None
        assert place.ratio is not None
        assert place.turn_deg is not None
        port = place.turn_deg if door.ports.by_pinion else deg
        bite = latch + (sweep - latch) * min(1.0, max(0.0, (port - low) / (high - low)))
        bite += delay * min(1.0, max(0.0, (port - delay_low) / (delay_high - delay_low)))
        torque = spring.at_rest + spring.stiffness * math.radians(place.turn_deg)
        moment = torque * place.ratio * (1 - spring.friction) - door.hinge_drag
        area = door.width * door.height
        moment += door.pressure * area * door.width / 2 / (1 + (deg / 4) ** 2)
        moment -= door.seal * max(0.0, 1 - deg / 5)
        moment -= door.latch_force * door.width if latching else 0.0
        moment -= bite * place.ratio**3 * speed * abs(speed)
        return [-speed, moment / inertia]

    bolt = [math.degrees(edge / door.width) for edge in (0.012, 0.002)]
    marks = sorted({12.0, 5.0, *bolt, 0.0}, reverse=True)
    now, state = 0.0, np.array([math.radians(start), 0.0])
    times: dict[float, float] = {}
    for mark in (one for one in marks if one < start):

        def reached(_time: float, at: State, *_: object, mark: float = mark) -> float:
            return float(at[0]) - math.radians(mark)

        def stopped(time: float, at: State, *_: object) -> float:
            return float(at[1]) if time > 1e-3 else 1.0

        events: list[Any] = [reached, stopped]
        for event in events:
            event.terminal, event.direction = True, -1
        solved: Any = solve_ivp(
            rates,
            (now, now + 200.0),
            state,
            method="LSODA",
            events=events,
            rtol=1e-6,
            atol=1e-8,
            args=(bolt[1] <= mark < bolt[0],),
        )
        now, state = float(solved.t[-1]), np.asarray(solved.y[:, -1])
        if not len(solved.t_events[0]):
            return Solved(times.get(12.0), None, 0.0, math.degrees(float(state[0])))
        times[mark] = now
    return Solved(times[12.0], now - times[12.0], float(state[1]) * door.width, 0.0)
