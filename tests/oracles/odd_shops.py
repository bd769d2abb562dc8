"""Small jobs in shops of every sort: short fences, thick blades, light carriers, scraps on the rack."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction as F
from random import Random

from casewright.casework.job import Bay, CaseKind, Construction, Job, ToeKind, TopKind
from casewright.shop.machines import Carry
from casewright.shop.materials import Offcut, OtherSize
from samples import SHOP, job, spec


def odd_job(seed: int) -> Job:
    """One or two cases; the same seed gives the same job."""
    chance = Random(seed)
    made = Construction(
        top=chance.choice((TopKind.STRETCHERS, TopKind.DADO)),
        toe=chance.choice((ToeKind.NONE, ToeKind.PLINTH)),
    )
    kind = chance.choice((CaseKind.BASE, CaseKind.TALL))
    high = chance.choice((F(69, 2), F(30)) if kind is CaseKind.BASE else (F(84), F(279, 4)))
    cases = [
        spec(
            f"B{number}",
            construction=made,
            kind=kind,
            width=chance.choice((F(30), F(24), F(371, 16))),
            height=high,
            depth=chance.choice((F(24), F(23), F(16))),
            bays=(Bay(fixed=(F(10),), adjustable=chance.randint(0, 2)),) * chance.randint(1, 2),
        )
        for number in range(1, chance.randint(1, 2) + 1)
    ]
    return _in_a_shop_of_its_own(job(*cases, construction=made), chance)


def _in_a_shop_of_its_own(plain: Job, chance: Random) -> Job:
    hand = replace(
        SHOP.hand_saw,
        kerf=chance.choice((F(1, 8), F(5, 64))),
        clean_up=chance.choice((F(0), F(1, 4))),
        cut_length=chance.choice((F(50), F(100))),
        base_offset=chance.choice((F(0), F(3, 2))),
    )
    table = replace(
        SHOP.table_saw,
        kerf=chance.choice((F(1, 8), F(3, 32))),
        rip_capacity=chance.choice((F(24), F(61, 2), F(52))),
    )
    carry = Carry(chance.choice((F(25), F(50), F(90))), chance.choice((F(60), F(96))))
    rack = tuple(_scraps(chance)) if chance.random() < 0.6 else ()
    sheets = {
        key: replace(
            good,
            weight=chance.choice((F(0), F(2))),
            trim=chance.choice((F(0), F(1, 4), F(1, 2))),
            grain=chance.random() < 0.6,
            others=(OtherSize(f"half {key}", F(48), F(48), F(45), chance.choice((None, 1))),)
            if chance.random() < 0.5
            else (),
        )
        for key, good in plain.sheets.items()
    }
    shop = replace(plain.shop, hand_saw=hand, table_saw=table, carry=carry, rack=rack)
    return replace(plain, sheets=sheets, shop=shop)


def _scraps(chance: Random) -> Iterable[Offcut]:
    yield Offcut("by the door", "ply", F(chance.randint(20, 90)), F(chance.randint(12, 47)), 2, F(5))
    yield Offcut("narrow", "thin", F(chance.randint(20, 90)), F(chance.randint(12, 47)), 1, F(2))
