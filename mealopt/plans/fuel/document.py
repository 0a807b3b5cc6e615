"""A packed session written down: its bottles, things, steps, sums and cautions."""

from __future__ import annotations

from mealopt.core.clock import clock
from mealopt.core.nutrients import CARBOHYDRATE, FRUIT_VEGETABLE, SODIUM
from mealopt.documents.fuel import Bottle, Carried, FuelFluid, FuelPlan, FuelSodium, FuelStep
from mealopt.documents.parts import TargetBand
from mealopt.documents.totals import Portion, day_totals
from mealopt.plans.fuel.around import after_words
from mealopt.plans.fuel.choices import FRUCTOSE, GLUCOSE, WATER
from mealopt.plans.fuel.clock_plan import Bite, Sip, bites, by_hour, km_at, sips
from mealopt.plans.fuel.notes import cautions, notes
from mealopt.plans.fuel.solve import Packed
from mealopt.plans.fuel.words import a_or_several, fuel_food, mixed, sip_words, time_of
from mealopt.plans.words import joined
from mealopt.table.pantry import Pantry


def portions(packed: Packed, pantry: Pantry) -> list[Portion]:
    """What is eaten and drunk, as the totals count it."""
    return [
        Portion(grams, pantry.row(pantry.foods[name]).per_100g, frozenset(pantry.foods[name].counts))
        for name, grams in packed.grams.items()
    ]


def fuel_plan(packed: Packed, pantry: Pantry) -> FuelPlan:
    """The document of one session, but for what to eat before it, which follows from the whole day."""
    need = packed.need
    session, hours = need.session, need.hours
    bottles = sips(packed)
    eaten = bites(packed, bottles)
    totals = day_totals([portions(packed, pantry)]).day if packed.grams else {}
    refills = _refills(packed, bottles)
    fluid = _fluid(packed)
    return FuelPlan(
        day=need.day,  # type: ignore[arg-type]
        session=need.number,
        kind=session.kind,
        effort=session.effort,
        start=clock(session.start_minute),
        ends=clock(session.end_minute),
        minutes=session.minutes,
        optional=session.effort == "easy",
        carbohydrate_g_per_h=TargetBand(
            least=round(need.least, 1), aim=round(need.aim, 1), most=round(max(need.most, need.aim), 1)
        ),
        gives_g_per_h=round(_held(packed, CARBOHYDRATE) / hours, 1),
        glucose_g_per_h=round(_held(packed, GLUCOSE) / hours, 1),
        fructose_g_per_h=round(_held(packed, FRUCTOSE) / hours, 1),
        by_hour_g=tuple(round(grams, 1) for grams in by_hour(packed, bottles, eaten)),
        fluid=fluid,
        sodium=_sodium(packed, totals),
        bottles=_bottles(packed, bottles, pantry),
        carried=_carried(packed, pantry),
        steps=_steps(packed, bottles, eaten, refills),
        foods=tuple(fuel_food(name, grams, pantry) for name, grams in packed.grams.items()),
        totals={key: value for key, value in totals.items() if key != FRUIT_VEGETABLE},
        start_weight_g=round(_start_weight(packed)),
        weight_g=round(1000.0 * need.litres + sum(count * thing.weight for thing, count in packed.things)),
        refills=refills,
        price=_price(packed),
        before=(),
        after=after_words(need, None if fluid is None else fluid.short_kg),
        notes=notes(packed, refills),
        cautions=cautions(need),
    )


def _held(packed: Packed, key: str) -> float:
    eaten = sum(count * thing.holds[key] for thing, count in packed.things)
    return eaten + sum(count * mix.holds.get(key, 0.0) for mix, count in packed.mixes)


def _fluid(packed: Packed) -> FuelFluid | None:
    need, fluid = packed.need, packed.need.fluid
    if fluid is None:
        return None
    food = sum(count * thing.holds[WATER] for thing, count in packed.things) / 1000.0
    lost = fluid.loss_l_per_h * need.hours
    short = max(0.0, lost - need.litres - food)
    return FuelFluid(
        least_l_per_h=round(fluid.least, 3),
        ceiling_l_per_h=round(fluid.ceiling, 3),
        planned_l_per_h=round(need.litres / need.hours, 3),
        litres=round(need.litres, 2),
        food_water_l=round(food, 3),
        tested=fluid.tested,
        loss_l_per_h=round(fluid.loss_l_per_h, 3) if fluid.tested else None,
        short_kg=round(short, 2) if fluid.tested else None,
        short_percent=round(100.0 * short / need.case.athlete.mass_kg, 1) if fluid.tested else None,
        how=fluid.how,
    )


def _sodium(packed: Packed, totals: dict[str, float]) -> FuelSodium | None:
    need, sodium = packed.need, packed.need.sodium
    if sodium is None:
        return None
    planned = totals.get(SODIUM, 0.0)
    return FuelSodium(
        asked=sodium.asked,
        least_mg_per_l=round(sodium.least),
        aim_mg_per_l=round(sodium.aim),
        most_mg_per_l=round(sodium.most),
        ceiling_mg_per_l=round(sodium.ceiling),
        planned_mg_per_l=round(planned / need.litres) if need.litres else 0.0,
        planned_mg=round(planned),
        lost_mg_per_h=None if sodium.lost_mg_per_h is None else round(sodium.lost_mg_per_h),
        how=sodium.how,
    )


def _bottles(packed: Packed, order: tuple[Sip, ...], pantry: Pantry) -> tuple[Bottle, ...]:
    found = []
    ml = packed.need.fill_ml
    salt_mg = pantry.row(pantry.foods["salt"]).per_100g[SODIUM] / 100.0 if packed.salt_g else 0.0
    for mix, count in packed.mixes:
        sodium = (mix.holds.get(SODIUM, 0.0) + packed.salt_g * salt_mg) * 1000.0 / ml
        holds = [fuel_food(name, grams, pantry) for name, grams in mix.grams.items()]
        holds += [fuel_food("salt", packed.salt_g, pantry)] if packed.salt_g else []
        found.append(
            Bottle(
                name="lightly salted water" if mix.drink is None and packed.salt_g else mix.says,
                count=count,
                ml=ml,
                holds=tuple(holds),
                percent=round(mix.percent, 1),
                sodium_mg_per_l=round(sodium),
                first=min(sip.begins for sip in order if sip.mix is mix),
                dry=mix.drink is None or mix.drink.dry,
                says=mixed(mix, packed.salt_g, ml, count, pantry),
            )
        )
    return tuple(sorted(found, key=lambda bottle: bottle.first))


def _carried(packed: Packed, pantry: Pantry) -> tuple[Carried, ...]:
    return tuple(
        Carried(
            name=a_or_several(count, thing.one, thing.many),
            count=count,
            grams=round(thing.weight, 1),
            carbohydrate_g=round(thing.holds[CARBOHYDRATE], 1),
            holds=tuple(fuel_food(name, grams, pantry) for name, grams in thing.grams.items()),
            says=thing.thing.packs,
        )
        for thing, count in packed.things
    )


def _refills(packed: Packed, bottles: tuple[Sip, ...]) -> tuple[int, ...]:
    """Minutes at which what is carried is empty and more is wanted."""
    at_hand = packed.need.at_hand
    return tuple(sip.begins for sip in bottles if at_hand and sip.number > 1 and (sip.number - 1) % at_hand == 0)


def _steps(
    packed: Packed, bottles: tuple[Sip, ...], eaten: tuple[Bite, ...], refills: tuple[int, ...]
) -> tuple[FuelStep, ...]:
    session = packed.need.session
    ml = packed.need.fill_ml
    found: list[tuple[int, int, FuelStep]] = []

    def step(minute: int, rank: int, kind: str, says: str, grams: float = 0.0, drunk: int = 0) -> None:
        made = FuelStep(
            time=time_of(session.start_minute, minute), minute=minute, km=km_at(session, minute),
            kind=kind, says=says, carbohydrate_g=round(grams, 1), ml=drunk,  # type: ignore[arg-type]
        )  # fmt: skip
        found.append((minute, rank, made))

    for minute in refills:
        count = min(packed.need.at_hand, packed.need.bottles - sum(sip.begins < minute for sip in bottles))
        step(minute, 0, "refill", f"refill {'the bottle' if count == 1 else f'{count} bottles'}")
    for sip in bottles:
        name = "lightly salted water" if sip.mix.drink is None and packed.salt_g else sip.mix.says
        lasts = f"{sip_words(ml, sip.ends - sip.begins)} until {time_of(session.start_minute, sip.ends)}"
        step(sip.begins, 1, "drink", f"bottle {sip.number}, {name}: {lasts}", sip.mix.holds.get(CARBOHYDRATE, 0.0), ml)
    for minute in sorted({bite.minute for bite in eaten}):
        now = [bite for bite in eaten if bite.minute == minute]
        names = list(dict.fromkeys(bite.thing.bite for bite in now))
        words = [
            name if (many := sum(b.thing.bite == name for b in now)) == 1 else f"{many} x {name}" for name in names
        ]
        step(minute, 2, "eat", joined(words), sum(bite.carbohydrate_g for bite in now))
    return tuple(made for _, _, made in sorted(found, key=lambda entry: entry[:2]))


def _start_weight(packed: Packed) -> float:
    """Grams at the start: filled bottles, everything to eat, and bags of what later bottles are mixed from."""
    need = packed.need
    bags = sum(count * sum(mix.grams.values()) for mix, count in packed.mixes if mix.drink and mix.drink.dry)
    later = max(0.0, 1.0 - need.at_hand / need.bottles) if need.bottles else 0.0
    eaten = sum(count * thing.weight for thing, count in packed.things)
    return need.at_hand * need.fill_ml + eaten + later * bags


def _price(packed: Packed) -> float | None:
    priced = [(thing.price, count) for thing, count in packed.things] + [(mix.price, c) for mix, c in packed.mixes]
    if any(price is None for price, _ in priced):
        return None
    return round(sum((price or 0.0) * count for price, count in priced), 2)
