#!/usr/bin/env python3
"""Replays a plan through `tubwright water` and compares every water that the plan states.

usage: replay_plan.py TUBWRIGHT JOB...
For each job: the plan's `start`, then each step's `adds_g`, `spends`, `to_c`, `to_log10_pco2_atm`
and `fraction`, one after the other, must give the plan's own `after` and `final`, to 1e-6 of each
reading's size (and of 1, whichever is larger). Exit status 0 when all do.
"""
import json
import subprocess
import sys

TOLERANCE = 1e-6
START_KEYS = {
    "temperature_c", "ph", "total_alkalinity_mg_l", "calcium_hardness_mg_l", "magnesium_hardness_mg_l",
    "sodium_mg_l", "potassium_mg_l", "chloride_mg_l", "sulfate_mg_l", "nitrate_mg_l",
    "borate_as_boron_mg_l", "cyanuric_acid_mg_l", "free_chlorine_mg_l", "combined_chlorine_mg_l",
    "bromide_mg_l", "total_bromine_mg_l", "copper_mg_l", "iron_mg_l", "manganese_mg_l",
    "peroxymonosulfate_mg_l"}
SPENT = {"free_chlorine_mg_l": "spend_free_chlorine_mg_l", "total_bromine_mg_l": "spend_total_bromine_mg_l"}


def start_state(state):
    return {key: value for key, value in state.items() if key in START_KEYS}


def operations(step, plan):
    """The water steps of one plan step."""
    kind = step["kind"]
    if kind == "fill":
        return []
    if kind == "heat":
        return [{"heat_to_c": step["to_c"]}]
    if kind == "release_carbon_dioxide":
        return [{"equilibrate_log10_pco2_atm": step["to_log10_pco2_atm"]}]
    if kind == "replace":
        with_ = step["with"]
        if with_ == "second_source":
            with_ = plan["second_source"]
        other = plan["start"] if with_ == "source_water" else with_
        return [{"blend_with": start_state(other), "fraction": step["fraction"]}]
    if kind == "add":
        grams = step["adds_g"].items()
        added = [{"add": formula, "mg_l": mass * 1000 / plan["vessel"]["volume_l"]} for formula, mass in grams]
        return added + [{SPENT[key]: value} for key, value in step.get("spends", {}).items()]
    raise SystemExit(f"a step of a kind that cannot be replayed: {kind}")


def script(plan):
    """All water steps, and for each place in the plan that states a water the index of its state."""
    steps, stated = [], []

    def walk(list_of_steps, where, says):
        for index, step in enumerate(list_of_steps):
            place = f"{where}/{index}"
            if step["kind"] == "repeat":
                for turn in range(step["times"]):
                    walk(step["steps"], place + "/steps", says and turn == 0)
            else:
                steps.extend(operations(step, plan))
            if says and step.get("after"):
                stated.append((place + "/after", step["after"], len(steps)))

    walk(plan["steps"], "/steps", True)
    stated.append(("/final", plan["final"], len(steps)))
    return steps, stated


def differences(plan, states):
    worst = []
    _, stated = script(plan)
    for where, expected, index in stated:
        for key, value in expected.items():
            if not isinstance(value, (int, float)) or key not in states[index]:
                continue
            error = abs(states[index][key] - value) / max(1.0, abs(value))
            worst.append((error, where, key, value, states[index][key]))
    return sorted(worst, reverse=True)


def main():
    program, jobs = sys.argv[1], sys.argv[2:]
    failed = False
    for job in jobs:
        plan = json.loads(subprocess.run([program, "plan", job, "--json"], check=True, capture_output=True).stdout)
        steps, stated = script(plan)
        line = json.dumps({"id": job, "balance": "none", **start_state(plan["start"]), "steps": steps})
        answer = json.loads(subprocess.run([program, "water"], input=line, text=True, capture_output=True).stdout)
        if "states" not in answer:
            raise SystemExit(f"{job}: {answer}")
        compared = differences(plan, answer["states"])
        error, where, key, value, got = compared[0]
        print(f"{job}: {len(stated)} waters, {len(compared)} readings; worst {error:.1e} at {where} {key} ({value} against {got})")
        failed = failed or error > TOLERANCE or len(compared) < 50
    sys.exit(failed)


main()
