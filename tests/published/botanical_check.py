"""Botanical names of the catalogue against a list that is not ours: the plants of WordNet 3.0 (Debian's
wordnet-base), a general dictionary that is free to use and names some five thousand species.

botanical_check.py PROGRAM [DATA]
"""
import json
import re
import subprocess
import sys

PROGRAM = sys.argv[1]
DATA = sys.argv[2] if len(sys.argv) > 2 else "/usr/share/wordnet/data.noun"
PLANTS = "20"  # the lexicographer's file of plants (WordNet, lexnames)

# Ours, and what the list calls the same plant: names that have changed since it was made in 2006,
# or that it spells otherwise.
OLDER = {
    "Solanum lycopersicum": "Lycopersicon esculentum",
    "Citrullus lanatus": "Citrullus vulgaris",
    "Salvia rosmarinus": "Rosmarinus officinalis",
    "Rheum hybridum": "Rheum cultorum",
    "Asparagus officinalis": "Asparagus officinales",
    "Anthriscus cerefolium": "Anthriscus cereifolium",
    "Tetragonia tetragonoides": "Tetragonia tetragonioides",
    "Trigonella foenum-graecum": "Trigonella foenumgraecum",
    "Echinochloa esculenta": "Echinochloa frumentacea",
}
# Species that the list has not, in genera that it has. A hybrid genus that it has not at all.
UNLISTED = {
    "Amaranthus tricolor", "Avena strigosa", "Claytonia perfoliata", "Cosmos bipinnatus",
    "Crotalaria juncea", "Linum usitatissimum", "Lupinus angustifolius", "Trifolium alexandrinum",
    "Trifolium resupinatum", "Trifolium subterraneum", "Zinnia elegans", "Sorghum drummondii",
}
NO_GENUS = {"Triticosecale"}


def listed():
    """Species and genera of the list."""
    species, genera = set(), set()
    with open(DATA) as file:
        for line in file:
            cell = line.split(" ")
            if line.startswith(" ") or cell[1] != PLANTS:
                continue
            for i in range(int(cell[3], 16)):
                word = cell[4 + 2 * i].replace("_", " ")
                name = re.match(r"([A-Z][a-z]+) (?:x )?([a-z-]+)", word)
                genus = re.fullmatch(r"genus ([A-Z][a-z]+)", word)
                if name:
                    species.add(" ".join(name.groups()))
                if genus:
                    genera.add(genus.group(1))
    return species, genera


def names(text):
    """Species of a row: "Cucurbita maxima, C. moschata (summer)" are two, x marks a hybrid."""
    genus = ""
    for part in re.split(r", | x (?=[A-Z]\.)", re.sub(r" \([^)]*\)", "", text)):
        words = [word for word in part.split() if word != "x"]
        if words[0].endswith(".") and genus.startswith(words[0][:-1]):
            words[0] = genus
        genus = words[0]
        yield genus, " ".join(words[:2])


def main():
    species, genera = listed()
    rows = json.loads(subprocess.run([PROGRAM, "crops", "--format", "json"], capture_output=True,
                                     text=True, check=True).stdout)["crops"]
    failures, found, seen = [], set(), set()
    for row in rows:
        if row["mixture"]:
            continue
        for genus, name in names(row["botanical_name"]):
            seen |= {name, genus}
            if name in species or OLDER.get(name) in species:
                found.add(name)
            elif genus not in genera and genus not in NO_GENUS:
                failures.append(f"{row['id']}: the genus of {name} is not in the list")
            elif name not in UNLISTED and genus not in NO_GENUS:
                failures.append(f"{row['id']}: {name} is not in the list")
    failures += [f"{name}: the list has it, or no row does" for name in sorted(UNLISTED)
                 if name in species or name not in seen]
    failures += [f"{name}: the list has it under this name, or no row does" for name in sorted(OLDER)
                 if name in species or name not in seen]
    failures += [f"{name}: the list has it, or no row does" for name in sorted(NO_GENUS)
                 if name in genera or name not in seen]
    for one in failures:
        print(one)
    print(f"{len(found)} species found, {len(UNLISTED)} not in the list, {len(failures)} failures")
    return 1 if failures or len(found) < 90 else 0


sys.exit(main())
