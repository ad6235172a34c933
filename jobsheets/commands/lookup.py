"""`jobsheets lookup`: what the tables say of a thread, drill, hole, fit, pin, bar or material."""

from jobsheets.commands.terminal import remark, say
from jobsheets.value import TYPE_CHECKING, Frozen

if TYPE_CHECKING:
    from jobsheets.lookup.answer import Answer, Miss
    from jobsheets.standards.drills import DrillSize

KINDS = ("thread", "drill", "hole", "fit", "pin", "stock", "material")
ABOUT = """\
Looks a name up in the published tables: every number with its source, and whether that was read on a page,
remembered, or worked out. A name the tables do not hold is never guessed at: the nearest ones are named,
with what tells them apart. Exit code 2 then."""
EXAMPLES = """\
  jobsheets lookup thread "8-32 UNC-2B"
  jobsheets lookup drill "#29"
  jobsheets lookup hole M5
  jobsheets lookup hole "8-32 UNC" --material brass-360 --shop my-shop.yaml   drills that you own
  jobsheets lookup fit "H7/g6 10 mm"
  jobsheets lookup pin "1/8 in"
  jobsheets lookup stock "round 3/8 in stainless-303"
  jobsheets lookup material 1.4305 --json"""


class Asked(Frozen):
    """One look-up as the words ask it."""

    kind: str
    name: str
    json: bool = False
    material: str | None = None
    shop: str | None = None


def asked(words: list[str]) -> Asked:
    """The words of the command, read and checked; a kind and a name alone need no parser and its import."""
    if len(words) == 2 and words[0] in KINDS and not words[1].startswith("-"):
        return Asked(kind=words[0], name=words[1])
    from jobsheets.commands.options import Parser

    parser = Parser("lookup", ABOUT, EXAMPLES)
    parser.add_argument("kind", metavar="KIND", choices=KINDS, help=f"one of {', '.join(KINDS)}")
    parser.add_argument(
        "name", metavar="NAME", help="as the trade writes it; quotes round a name with spaces"
    )
    parser.add_argument("--json", action="store_true", help="print it as JSON (docs/lookup.md)")
    parser.add_argument("--material", metavar="NAME", help="hole: the metal that is tapped")
    parser.add_argument("--shop", metavar="FILE", help="hole: tap drills out of this shop's drawer")
    args = parser.read(words)
    if args.kind != "hole" and (args.material is not None or args.shop is not None):
        parser.error("--material and --shop go with: lookup hole")
    return Asked(**vars(args))


def run(words: list[str]) -> int:
    """Answer one look-up.

    Raises:
        InputError: a shop file that must be mended.
    """
    args = asked(words)
    found = _answer(args)
    from jobsheets.lookup.answer import Miss
    from jobsheets.lookup.written import as_json, as_text

    missed = isinstance(found, Miss)
    if args.json:
        say(as_json(found))
    elif missed:
        remark(as_text(found).rstrip())
    else:
        say(as_text(found))
    return 2 if missed else 0


def _answer(args: Asked) -> "Answer | Miss":
    from jobsheets.lookup import ask

    if args.material is None and args.shop is None:
        return ask.look_up(args.kind, args.name)
    from jobsheets.lookup.answer import Miss

    material = None
    if args.material is not None:
        known = ask.look_up("material", args.material)
        if isinstance(known, Miss):
            return known
        from jobsheets.standards import materials

        material = materials.find(args.material)
    return ask.tap_drills(args.name, material, owned(args.shop))


def owned(shop: str | None) -> "tuple[DrillSize, ...] | None":
    """Drills of a shop file; None without one.

    Raises:
        InputError: a shop file that must be mended.
    """
    if shop is None:
        return None
    from pathlib import Path

    from jobsheets.shop.load import load
    from jobsheets.standards.drills import DrillSize

    return tuple(
        DrillSize(name=drill.name, mm=drill.diameter, series=drill.series, source=f"shop file {shop}")
        for drill in load(Path(shop)).tooling.drills
    )
