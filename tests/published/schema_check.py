"""Files and outputs against tools/schema/ with a validator that is not ours (python3-jsonschema), and
the schemas against the table of keys that the program's own reader has.

schema_check.py PROGRAM ROOT
"""
import glob
import json
import os
import re
import subprocess
import sys
import tempfile

import jsonschema
import yaml

PROGRAM, ROOT = sys.argv[1:3]
failures = []


def fail(text):
    failures.append(text)


class Core(yaml.SafeLoader):
    """YAML 1.2 core: days are texts, `no` is a word."""


Core.yaml_implicit_resolvers = {
    first: [(tag, pattern) for tag, pattern in rows
            if tag not in ("tag:yaml.org,2002:timestamp", "tag:yaml.org,2002:bool")]
    for first, rows in yaml.SafeLoader.yaml_implicit_resolvers.items()
}
Core.add_implicit_resolver("tag:yaml.org,2002:bool", re.compile("^(?:true|false)$"), list("tf"))


def schema(name):
    with open(os.path.join(ROOT, "tools/schema", name + ".schema.json")) as file:
        rules = json.load(file)
    jsonschema.Draft202012Validator.check_schema(rules)
    return rules


def mistakes(rules, document):
    return [f"{'/'.join(map(str, one.path))}: {one.message[:150]}"
            for one in jsonschema.Draft202012Validator(rules).iter_errors(document)]


def read(path):
    with open(path) as file:
        return yaml.load(file, Core)


def run(*words):
    done = subprocess.run([PROGRAM, *words], capture_output=True, text=True, cwd=ROOT)
    return done.returncode, done.stdout, done.stderr


def check_files():
    """What the program reads without an error, the schema accepts."""
    kinds = {
        "garden": glob.glob(ROOT + "/seasons/*/garden.yaml") + glob.glob(ROOT + "/tests/rules/*/garden.yaml"),
        "plan": glob.glob(ROOT + "/tests/rules/*/bad.yaml") + glob.glob(ROOT + "/tests/rules/*/near.yaml"),
        "catalogue": glob.glob(ROOT + "/crops/*.yaml"),
    }
    for kind, paths in kinds.items():
        rules = schema(kind)
        if len(paths) < 3:
            fail(f"only {len(paths)} files of the form {kind}")
        for path in paths:
            for one in mistakes(rules, read(path)):
                fail(f"{os.path.relpath(path, ROOT)}: {one}")


SHORT = """seasons: 2027
site: {last_frost: 05-08, first_frost: 10-05}
beds: 6 of 8 ft x 4 ft
wants: [tomatoes, {crop: kale, amount: 20 plants}]
"""
BROKEN = {
    "garden": [
        SHORT.replace("wants", "wnats"),
        SHORT.replace("amount: 20 plants", "amount: [1, 2]"),
        SHORT + "sightings: [{bed: A, disease: clubroot, date: 2026-08-15, severity: much}]\n",
        SHORT + "rules: {family-break: never}\n",
        SHORT.replace("seasons: 2027\n", ""),
        SHORT + "keep: [{bed: A, from: 2027-05-01}]\n",
    ],
    "plan": [
        "plantings: [{bed: A, crop: tomato, form: 2027-05-01}]\n",
        "plantings: [{bed: A, crop: tomato, from: May, to: 2027-09-01}]\n",
        "plantings: [{bed: A, crop: tomato, from: 2027-05-01, ending: eaten}]\n",
    ],
    "catalogue": [
        "crops: [{id: tomato, yeild: {per_m2: [3, 5, 9]}}]\n",
        "crops: [{id: my-tomato, like: tomato, days: {least: 5}}]\n",
        "crops: [{id: Tomato}]\n",
        "mixtures: [{id: mine, name: mine, parts: {rye: 100 %}}]\n",
        "ledger: {nitrogen: {supply_by_om: {value: 30}}}\n",
        "ledger: {nitrogen: {q10: {low: 2}}}\n",
        "site: {frost_spread: {last_sd_days: [20, 18]}}\n",
    ],
}


def check_broken():
    """What the program refuses, the schema refuses too."""
    for kind, texts in BROKEN.items():
        rules = schema(kind)
        for text in texts:
            with tempfile.TemporaryDirectory() as folder:
                path = os.path.join(folder, "file.yaml")
                garden = os.path.join(folder, "garden.yaml")
                for name, content in ((garden, SHORT), (path, text)):
                    with open(name, "w") as file:
                        file.write(content)
                words = {"garden": ("check", path), "plan": ("check", garden, path),
                         "catalogue": ("crops", "tomato", "--crops", path)}[kind]
                if run(*words)[0] != 2:
                    fail(f"the program takes this {kind}: {text}")
            if not mistakes(rules, yaml.load(text, Core)):
                fail(f"the schema takes this {kind}: {text}")


def keys_of(text, file_of):
    """Keys that the reader names where a table is expected and the number 7 stands."""
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "file.yaml")
        with open(path, "w") as file:
            file.write(text)
        with open(os.path.join(folder, "garden.yaml"), "w") as file:
            file.write(SHORT)
        words = {"garden": ("check", path), "plan": ("check", os.path.join(folder, "garden.yaml"), path),
                 "catalogue": ("crops", "tomato", "--crops", path)}[file_of]
        told = run(*words)[2] + run(*words)[1]
    found = re.search(r"it may hold: ([a-z0-9_, -]+)", " ".join(told.split("\n")))
    return {one.strip() for one in found.group(1).split(",")} if found else set()


def properties(rules, *path):
    """Keys that the schema allows at a path of keys; lists and references are looked through."""
    def open_up(node):
        while "$ref" in node:
            node = rules["$defs"][node["$ref"].split("/")[-1]]
        return node

    def tables(node):
        node = open_up(node)
        if "properties" in node:
            yield node
        if "items" in node:
            yield from tables(node["items"])
        for one in node.get("anyOf", []):
            yield from tables(one)

    level = [rules]
    for key in path:
        level = [open_up(table["properties"][key]) for node in level for table in tables(node)
                 if key in table["properties"]]
    return [set(table["properties"]) for node in level for table in tables(node)]


COVER = "crops: [{id: my-rye, like: rye, cover: %s}]\n"
CROP = "crops: [{id: mine, like: tomato, %s: 7}]\n"
PROBES = [
    ("garden", (), "7\n"), ("garden", ("site",), SHORT.replace("{last_frost: 05-08, first_frost: 10-05}", "7")),
    ("garden", ("wants",), SHORT.replace("[tomatoes, {crop: kale, amount: 20 plants}]", "[[7]]")),
    ("garden", ("tests",), SHORT + "tests: [7]\n"), ("garden", ("sightings",), SHORT + "sightings: [7]\n"),
    ("garden", ("amendments",), SHORT + "amendments: [7]\n"), ("garden", ("keep",), SHORT + "keep: [7]\n"),
    ("garden", ("accept",), SHORT + "accept: [7]\n"), ("garden", ("work",), SHORT + "work: 7\n"),
    ("garden", ("work", "except"), SHORT + "work: {hours_per_week: 4, except: [7]}\n"),
    ("plan", (), "7\n"), ("plan", ("plantings",), "plantings: [7]\n"), ("plan", ("rotation",), "rotation: 7\n"),
    ("catalogue", (), "7\n"), ("catalogue", ("mixtures",), "mixtures: [{id: mine, x: 7}]\n"),
    ("catalogue", ("crops", "cover"), COVER % "7"),
    ("catalogue", ("crops", "cover", "n_pct"), COVER % "{n_pct: 7}"),
    ("catalogue", ("crops", "cover", "wait_weeks"), COVER % "{wait_weeks: 7}"),
    ("catalogue", ("crops", "cover", "fumigant"), COVER % "{fumigant: 7}"),
    ("catalogue", ("crops", "cover", "windows"), COVER % "{windows: [7]}"),
    ("catalogue", ("crops", "forms"), "crops: [{id: tomato, forms: [7]}]\n"),
] + [("catalogue", ("crops", key), CROP % key)
     for key in ("start", "spacing", "seed", "days", "harvest", "yield", "hardiness", "temperature",
                 "life", "nitrogen", "fixation")] + [
    ("catalogue", (part, key), f"{part}: {{{key}: 7}}\n")
    for part, keys in (("ledger", "nitrogen disease rules reach uptake_curves causes"),
                       ("site", "shelter ground water frost year start maturity winter covers limits "
                                "frost_spread earliest catalogue_days emergence"))
    for key in keys.split()] + [
    ("catalogue", ("ledger",), "ledger: 7\n"), ("catalogue", ("site",), "site: 7\n"),
    ("catalogue", ("ledger", "nitrogen", "q10"), "ledger: {nitrogen: {q10: 7}}\n"),
    ("catalogue", ("ledger", "uptake_curves", "maize"), "ledger: {uptake_curves: {maize: 7}}\n"),
    ("catalogue", ("ledger", "causes", "uptake"), "ledger: {causes: {uptake: 7}}\n"),
    ("catalogue", ("site", "water", "depletion"), "site: {water: {depletion: 7}}\n")]


def check_keys():
    """A schema allows exactly the keys of the reader's own table."""
    for kind, path, text in PROBES:
        reader = keys_of(text, kind)
        allowed = properties(schema(kind), *path)
        if not reader:
            fail(f"the reader names no keys for {kind} {'/'.join(path)}")
        elif reader not in allowed:
            near = max(allowed, key=lambda one: len(one & reader), default=set())
            fail(f"{kind} {'/'.join(path) or '(top)'}: only the reader has {sorted(reader - near)}, "
                 f"only the schema has {sorted(near - reader)}")


def check_outputs():
    with tempfile.TemporaryDirectory() as folder:
        garden, plan = os.path.join(folder, "garden.yaml"), os.path.join(folder, "plan.yaml")
        with open(garden, "w") as file:
            file.write(SHORT)
        runs = {
            "output-plan": ("plan", garden, "-o", plan, "--within", "2s"),
            "output-check": ("check", garden, plan),
            "output-ledger": ("ledger", garden, plan),
            "output-crops": ("crops",),
            "output-explain": ("explain", garden, plan, "--bed", "A.1", "--week", "2027-W25", "--crop", "kale"),
        }
        for name, words in runs.items():
            code, out, told = run(*words, "--format", "json")
            if code > 1:
                fail(f"{name}: exit {code}: {told[:300]}")
                continue
            document = json.loads(out)
            for one in mistakes(schema(name), document)[:5]:
                fail(f"{name}: {one}")
            first = next(iter(document))
            if not mistakes(schema(name), {key: value for key, value in document.items() if key != first}):
                fail(f"{name}: its schema does not miss the key {first}")
        for one in mistakes(schema("plan"), read(plan)):
            fail(f"plan that was written: {one}")
        for one in mistakes(schema("output-crops"), json.loads(run("crops", "--summary", "--format", "json")[1])):
            fail(f"summary: {one}")
        asked = run("crops", "--cover", "--sow-in", "2027-W36", "--garden", garden, "--format", "json")[1]
        for one in mistakes(schema("output-crops"), json.loads(asked)):
            fail(f"crops in a week: {one}")
        here = run("crops", "sweet-corn", "--garden", garden, "--format", "json")[1]
        for one in mistakes(schema("output-crops"), json.loads(here)):
            fail(f"a crop at a garden: {one}")
        if "here" not in json.loads(here)["crops"][0]:
            fail("a crop at a garden: its seasons are missing")
        code, _, told = run("new", os.path.join(folder, "fresh"))
        fresh = os.path.join(folder, "fresh", "garden.yaml")
        with open(fresh) as file:
            first = file.readline()
        named = re.fullmatch(r"# yaml-language-server: \$schema=(\S+)\n", first)
        if not named or json.load(open(os.path.join(os.path.dirname(fresh), named.group(1)))) != schema("garden"):
            fail(f"the first line of a new garden does not name the schema: {first}")
        for one in mistakes(schema("garden"), read(fresh)):
            fail(f"new garden: {one}")


for check in (check_files, check_broken, check_keys, check_outputs):
    check()
for one in failures:
    print(one)
print(f"{len(failures)} failures")
sys.exit(1 if failures else 0)
