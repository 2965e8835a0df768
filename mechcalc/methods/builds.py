"""What it comes of that two machines are built differently.

Only this file explains a difference between two trials of the same calculation by the build of the machines.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from mechcalc.spec import MachineSpec

if TYPE_CHECKING:
    from mechcalc.methods.comparing import Trial

REGISTERS = {"setting_places": "levers", "result_places": "number wheels", "counter_places": "counter wheels",
             "positions": "carriage positions"}


def differences(spec: MachineSpec, trial: Trial, other: MachineSpec, other_trial: Trial) -> list[str]:
    """Each difference in build between two machines, with what came of it in this calculation.

    Parameters
    ----------
    spec, trial
        The machine that the other is compared with.
    other, other_trial
        The other one.

    Returns
    -------
    list of str
        A sentence each; refusals first.
    """
    name, other_name = spec.name or "the first machine", other.name or "the other machine"
    found = [f"{who} refused: {one.refusal}" for who, one in ((name, trial), (other_name, other_trial)) if one.refusal]
    if other.back_transfer != spec.back_transfer:
        found.append(_transfer(name, spec, trial, other_name, other_trial))
    if other.counter_carry != spec.counter_carry:
        found.append(_counter(name, spec, trial, other_name, other_trial))
    if other.carry_reach != spec.carry_reach and any(one.carry_reach < one.result_places for one in (spec, other)):
        found.append(_reach(name, spec, trial, other_name, other, other_trial))
    sizes = [f"{getattr(other, field)} {words} against {getattr(spec, field)}" for field, words in REGISTERS.items()
             if getattr(spec, field) != getattr(other, field)]
    if sizes:
        done = not trial.refusal and not other_trial.refusal
        found.append(f"{other_name} has {', '.join(sizes)}"
                     + (": both have room for this calculation." if done else "."))
    return found


def _transfer(name: str, spec: MachineSpec, trial: Trial, other_name: str, other_trial: Trial) -> str:
    """No transfer on one of them: what had to be set by hand."""
    without, has = (other_name, name) if spec.back_transfer else (name, other_name)
    one, two = (other_trial, trial) if spec.back_transfer else (trial, other_trial)
    head = f"{without} has no back transfer, {has} has"
    if not one.cost or not two.cost:
        return f"{head}."
    if not two.cost.transfers:
        return f"{head}: it is not used here."
    return (f"{head}: the product was set again by hand ({one.cost.settings} settings of {one.cost.levers} levers, "
            f"against {two.cost.settings} of {two.cost.levers} and {two.cost.transfers} back "
            f"transfer{'s' * (two.cost.transfers > 1)}).")


def _counter(name: str, spec: MachineSpec, trial: Trial, other_name: str, other_trial: Trial) -> str:
    """No carry in one counter: what the two counters show."""
    without, carries = (other_name, name) if spec.counter_carry else (name, other_name)
    head = f"{without}'s counter does not carry, {carries}'s does"
    if not trial.workings or not other_trial.workings:
        return f"{head}."
    shows, other_shows = (one.workings[-1].end.reading.counter for one in (trial, other_trial))
    if shows == other_shows:
        return f"{head}: here both counters show {shows}."
    first, second = (other_shows, shows) if spec.counter_carry else (shows, other_shows)
    return f"{head}: it shows {first} instead of {second}."


def _reach(name: str, spec: MachineSpec, trial: Trial, other_name: str, other: MachineSpec, other_trial: Trial) -> str:
    """A shorter carry reach: whether a carry stopped short."""
    builds = [(name, spec, trial), (other_name, other, other_trial)]
    (short, build, one), (long, far, _) = sorted(builds, key=lambda row: row[1].carry_reach)
    head = f"{short}'s carries reach {build.carry_reach} places from the drum, {long}'s {far.carry_reach}"
    if "carry reach" in one.refusal:
        return f"{head}: a carry would have stopped short."
    return f"{head}: no carry had to run that far here." if not one.refusal else f"{head}."
