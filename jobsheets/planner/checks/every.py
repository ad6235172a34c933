"""The checks, in the order in which their findings print. A new check is added here and nowhere else."""

from collections.abc import Callable

from jobsheets.finding import Finding, Severity
from jobsheets.planner.checks import (
    holding,
    material,
    measuring,
    reach,
    rigidity,
    screwcutting,
    speed,
    threads,
    tools,
    walls,
)
from jobsheets.planner.job_view import JobView
from jobsheets.planner.operation import Plan

Check = Callable[[JobView, Plan], tuple[Finding, ...]]

CHECKS: tuple[Check, ...] = (
    tools.missing,
    tools.substituted,
    tools.stock_on_the_rack,
    holding.grip,
    holding.stick_out,
    holding.bar_behind_the_spindle,
    holding.regrip,
    measuring.dial_lines,
    measuring.gauges,
    reach.room,
    reach.quill,
    reach.flutes,
    walls.under_blind_holes,
    walls.round_holes,
    walls.cross_holes,
    threads.percent,
    threads.no_percent,
    threads.engagement,
    threads.die_start,
    threads.die_run_out,
    threads.twist_off,
    screwcutting.pitch_error,
    screwcutting.run_out,
    screwcutting.stop_in_time,
    screwcutting.chart,
    screwcutting.banjo,
    speed.slowest_too_fast,
    speed.no_figure,
    speed.power,
    rigidity.power,
    rigidity.bending,
    rigidity.chatter,
    rigidity.thin_chip,
    speed.knurl_tracks,
    material.forbidden_steps,
    material.hazards,
)

ORDER = (Severity.STOP, Severity.CAUTION, Severity.NOTE)


def all_findings(job: JobView, plan: Plan) -> tuple[Finding, ...]:
    """What every check says, stops first; the order of CHECKS inside a severity."""
    found = [finding for check in CHECKS for finding in check(job, plan)]
    return tuple(sorted(dict.fromkeys(found), key=lambda f: ORDER.index(f.severity)))


def stops(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    return tuple(f for f in findings if f.severity is Severity.STOP)
