#!/bin/sh
# What a night leaves for the morning: the page in a browser, the table with errors, ties and
# differences, which knob moved what, the contact sheet's words, and set files that render.
set -u
. "$(dirname "$0")/program.sh"
python=/usr/bin/python3
[ -x "$python" ] || python=python3

mkdir -p sets/models && write_set sets/set.toml '1i title = "A <small> room"'
box solid -1.2 0 -1.6 -1.0 0.3 -1.4 >sets/models/block.obj
cat >>sets/set.toml <<'END_SET'

[[fixture]]
name = "fill"
form = "bare"
source = "tungsten"
position = [-1.5, 1.6, 0.5]
cct_k = 3200
output_lm = 150

[[glass]]
name = "block"
model = "models/block.obj"
position = [-1.1, 0.0, -1.5]

[[meter]]
name = "face"
position = [0.0, 1.0, -1.0]
facing = [0.0, 1.2, 1.5]

[[region]]
name = "back"
surface = "wall_back"

[[region]]
name = "face"
surface = "wall_left"
END_SET
cat >night.toml <<'END_NIGHT'
set = "sets/set.toml"
name = "beam {fixture.key.beam_angle_deg}, key {fixture.key.dimmer}, fill <{fixture.fill.dimmer}>"
[vary]
"fixture.key.beam_angle_deg" = [15, 25]
"fixture.key.dimmer" = [0.25, 0.5, 1]
"fixture.fill.dimmer" = [1, 0.999]
[rank]
"back.mean_luminance" = "most"
END_NIGHT
"$dapple" overnight night.toml -o night --passes 4 >printed 2>stderr
expect "exit code" 0 $?
expect "the files are named" "night/sheet.html
night/sheet.pdf
night/overnight.json
night/table.csv" "$(grep '^night/' printed)"
expect "the first two share their place" \
    "1=. beam 25, key 1, fill <1>
1=. beam 25, key 1, fill <0.999>" "$(head -n 2 printed)"

# ---- The table and the JSON ----------------------------------------------------------------------

expect "the table has errors and differences of what is ranked" 1 \
    "$(head -1 night/table.csv | grep -c '"back.mean_luminance","back.mean_luminance stderr","back.mean_luminance difference","back.mean_luminance difference stderr"')"
expect "a row for each variant" 13 "$(wc -l <night/table.csv)"
"$python" - >stdout 2>&1 <<'END_CHECK'
import csv, json, math
night = json.load(open("night/overnight.json"))
variants = night["variants"]
best = min(variants, key=lambda v: v["rank"])
assert night["first"] == best["name"]
assert sorted(v["rank"] for v in variants) == list(range(1, 13))
for v in variants:
    m = "back.mean_luminance"
    assert v["errors"][m] > 0 and v["score_stderr"] == v["errors"][m]
    assert math.isclose(v["differences"][m]["value"], v["measures"][m] - best["measures"][m], abs_tol=1e-9)
    assert math.isclose(v["differences"][m]["stderr"], math.hypot(v["errors"][m], best["errors"][m]))
    first = next(u for u in variants if u["rank"] == v["place"])
    gap = v["score"] - first["score"]
    # Student's t of three degrees of freedom, 95.45 %: 3.307.
    assert 0 <= gap <= 3.31 * math.hypot(v["score_stderr"], first["score_stderr"]), v["name"]
    # What is printed: t of 68.27 % is 1.197.
    assert math.isclose(v["shown_errors"][m], 1.197 * v["errors"][m], rel_tol=1e-3)
    assert v["tied"] == (sum(u["place"] == v["place"] for u in variants) > 1)
    # A meter and a region may have one name.
    assert v["measures"]["face.lux"] > 0 and "face.uniformity" in v["measures"]
    # The light of a meter in stops has the error of its lux.
    lux, stops = (v["measures"][f"face.{key}"] for key in ("lux", "stops_from_camera"))
    assert math.isclose(v["errors"]["face.stops_from_camera"], v["errors"]["face.lux"] / lux / math.log(2))
effect = next(e for e in night["effects"] if e["measure"] == m)
key = next(k for k in effect["knobs"] if k["addresses"] == ["fixture.key.dimmer"])
for level in key["levels"]:
    own = [v["measures"][m] for v in variants if v["values"]["fixture.key.dimmer"] == level["level"]]
    assert len(own) == 4 and math.isclose(level["mean"], sum(own) / 4)
assert key["beyond_noise"] and effect["sentence"].startswith("Key dimmer moved back mean luminance most"), effect
fill = next(k for k in effect["knobs"] if k["addresses"] == ["fixture.fill.dimmer"])
assert not fill["beyond_noise"], fill
rows = list(csv.DictReader(open("night/table.csv")))
assert [r["name"] for r in rows] == [v["name"] for v in variants]
for r, v in zip(rows, variants):
    assert math.isclose(float(r["back.mean_luminance stderr"]), v["errors"][m], rel_tol=1e-4)
    assert r["tied"] == ("yes" if v["tied"] else "no")
END_CHECK
expect "figures, errors, ties, differences and effects fit together" "" "$(cat stdout)"

# ---- Paper ---------------------------------------------------------------------------------------

if command -v pdftotext >/dev/null; then
    pdftotext night/sheet.pdf - | tr '\n' ' ' >text
    for words in "12 variants, all at f/" "Key dimmer moved back mean luminance most" \
        "cannot be told apart: the scores" "1=. beam 25, key 1, fill <1>"; do
        expect "the sheet says: $words" 1 "$(grep -cF "$words" text)"
    done
fi

# ---- Each variant's set file, from where it is, also if the night was started elsewhere ----------

one="night/beam-15-key-0.5-fill-1/set.toml"
(cd / && "$dapple" render "$work/$one" -o "$work/again" --passes 4 >"$work/stdout" 2>&1)
expect "a variant's set file renders from another folder" 0 $?
expect "its title is that of the set" 1 "$(grep -c '^title = "A <small> room"' "$one")"
film=night/beam-15-key-0.25-fill-1
(cd / && "$dapple" render "$work/$film/set.toml" -o "$work/same" --passes 4 >"$work/stdout" 2>&1)
expect "it gives the same picture as in the night" "" "$(cmp "$film/set.png" same/set.png 2>&1)"

# ---- The page ------------------------------------------------------------------------------------

page=night/sheet.html
expect "nothing from elsewhere" "" "$(grep -o 'https*://[^" ]*' $page | grep -v www.w3.org)"
expect "names cannot break the page" 0 "$(grep -c 'fill <1>' $page)"
expect "sliders for the best" 12 "$(ls night/*/set.html | wc -l)"
message=$("$python" "$here/night_browser.py" uses $page 2>&1)
code=$?
if [ $code -eq 77 ]; then
    echo "$message"
    [ "$failures" -eq 0 ] && exit 77
fi
expect "order, choice, comparing, keyboard" "" "$message"

exit $((failures > 0))
