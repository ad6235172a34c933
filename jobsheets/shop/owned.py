"""Choosing among what is owned: one door to every choice, each a pure function over the tooling.

A choice is a `Pick` (a `TapSet` for taps): the tool, or the next best with what that changes, or what to buy
or borrow. Nothing here plans; the planner decides what to do with a substitution.
"""

from jobsheets.shop.pick import Pick
from jobsheets.shop.pick_gauges import gauge_for
from jobsheets.shop.pick_holes import (
    centre_drill_for,
    countersink_for,
    drill_within,
    end_mill_below,
    largest_drill_below,
    pilot_for,
    reamer_for,
)
from jobsheets.shop.pick_lathe import boring_bar_for, chuck_for, collet_for, knurl_for, lathe_tool
from jobsheets.shop.pick_screwcut import threading_tool_for, wires_for
from jobsheets.shop.pick_threads import TapSet, die_for, mandrel_for, tap_for, thread_gauge_for

__all__ = [
    "Pick",
    "TapSet",
    "boring_bar_for",
    "centre_drill_for",
    "chuck_for",
    "collet_for",
    "countersink_for",
    "die_for",
    "drill_within",
    "end_mill_below",
    "gauge_for",
    "knurl_for",
    "largest_drill_below",
    "lathe_tool",
    "mandrel_for",
    "pilot_for",
    "reamer_for",
    "tap_for",
    "thread_gauge_for",
    "threading_tool_for",
    "wires_for",
]
