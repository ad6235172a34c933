"""Usable flute length of a jobber drill by its diameter, mm.

Source: inch drills, ANSI B94.11M, straight-shank twist drills, jobber length, column F; metric drills,
DIN 338, column l2. Both from memory: a drill whose flutes are told in the shop file goes by that.
"""

from bisect import bisect_left

SOURCE = "ANSI B94.11M jobber length and DIN 338, from memory"

# (largest diameter of the band, flute length) in thousandths and sixteenths of an inch
_INCH = (
    (14.5, 2), (20, 3), (22.5, 4), (25, 5), (28, 6), (33, 8), (38, 10), (42, 11), (46.9, 12), (63.5, 14),
    (78.5, 16), (86, 18), (93.8, 20), (99.5, 22), (106.5, 23), (113, 24), (128.5, 26), (140.6, 28),
    (149.5, 30), (157, 32), (171.9, 34), (182, 35), (191, 37), (203.1, 39), (218.8, 40), (234.4, 42),
    (250, 44), (277, 46), (290, 47), (302, 49), (316, 51), (328.1, 53), (343.8, 55), (359.4, 56), (377, 58),
    (397, 60), (413, 62), (421.9, 63), (437.5, 65), (453.1, 67), (468.8, 69), (484.4, 70), (500, 72),
)  # fmt: skip

# (largest diameter of the band, flute length), mm
_METRIC = (
    (0.24, 2.5), (0.3, 3), (0.38, 4), (0.48, 5), (0.53, 6), (0.6, 7), (0.67, 8), (0.75, 9), (0.85, 10),
    (0.95, 11), (1.06, 12), (1.18, 14), (1.32, 16), (1.5, 18), (1.7, 20), (1.9, 22), (2.12, 24), (2.36, 27),
    (2.65, 30), (3.0, 33), (3.35, 36), (3.75, 39), (4.25, 43), (4.75, 47), (5.3, 52), (6.0, 57), (6.7, 63),
    (7.5, 69), (8.5, 75), (9.5, 81), (10.6, 87), (11.8, 94), (13.2, 101), (14.0, 108),
    (15.0, 114), (16.0, 120),
)  # fmt: skip

_INCH_TOPS = tuple(top * 0.0254 + 0.002 for top, _ in _INCH)
_METRIC_TOPS = tuple(top + 1e-6 for top, _ in _METRIC)


def jobber_flute(diameter: float, metric: bool) -> float:
    """Flute length of a jobber drill, mm.

    Args:
        diameter: of the drill, mm.
        metric: True for a drill made to a metric standard.

    Raises:
        ValueError: the tables hold no jobber drill so large.
    """
    tops = _METRIC_TOPS if metric else _INCH_TOPS
    band = bisect_left(tops, diameter)
    if band == len(tops):
        raise ValueError(f"no jobber drill so large is known ({diameter:.1f} mm); want its flute written")
    return float(_METRIC[band][1]) if metric else _INCH[band][1] * 25.4 / 16.0
