"""A shop file with no more than it must hold."""

SMALL = """\
shop: 1
name: corner of a garage
system: in
lathe:
  name: old lathe
  power: 1/2 hp
  spindle_bore: 0.5 in
  swing_over_slide: 4 in
  room: 12 in
  speeds:
    - { rpm: 200, position: low }
    - { rpm: 600, position: high }
  chucks:
    - { name: chuck, kind: three-jaw, from: 1/8 in, to: 3 in, jaw_depth: 1/2 in, body_diameter: 4 in, max_rpm: 1500, runout: 0.004 in }
  cross_slide: { per_turn: 0.1 in, divisions: 100, reads: radius, backlash: 0.01 in, travel: 3 in }
  carriage: { per_turn: 0.5 in, divisions: 50, backlash: 0.02 in, travel: 12 in }
  tailstock: { per_turn: 0.1 in, divisions: 100, backlash: 0.01 in, travel: 2 in, usable_from: 0.5 in, taper: MT2 }
tools:
  drills:
    sets:
      - { series: fraction, from: 1/16 in, to: 1/4 in, step: 1/32 in }
    missing: [3/32 in]
    single: [7/64 in]
"""  # noqa: E501
