#!/bin/sh
# dapple balance: what it prints and writes, and the input that it refuses.
set -u
. "$(dirname "$0")/program.sh"

write_set set.toml 's/^output_lm.*/output_lm = 800   # rated/'
cat >>set.toml <<'END_SET'

[[fixture]]
name = "fill"
form = "bare"
position = [-1.0, 1.5, 0.5]
output_lm = 400
dimmer = 0.5   # half

[[meter]]
name = "face"
position = [0.0, 1.0, -1.0]
facing = [0.0, 1.2, 1.5]

[[region]]
name = "wall"
surface = "wall_back"
END_SET
"$dapple" render set.toml -o out --passes 4 >/dev/null 2>&1
cp set.toml written.toml
"$dapple" balance out/set.exr "face = 200 lx" "key:fill = 20" --write written.toml --json >printed 2>stderr
expect "exit code" 0 $?
expect "nothing on standard error" "" "$(cat stderr)"
value() {
    sed -n "s/.*\"$1\": \([0-9.eE+-]*\),*/\1/p" printed | sed -n "$2p"
}
expect "the meter reads what was wanted" "200.0" "$(value value 1 | awk '{printf "%.1f", $1}')"
expect "the ratio is what was wanted" "20.00" "$(value value 2 | awk '{printf "%.2f", $1}')"
expect "only dimmers are written" "> dimmer = 0 < dimmer = 0 > dimmer = 0" \
    "$(diff set.toml written.toml | grep '^[<>]' | cut -c 1-12 | tr '\n' ' ' | sed 's/ $//')"
"$dapple" render written.toml -o again --passes 4 >/dev/null 2>&1
expect "rendered with these dimmers the meter reads 200 lx within 2 %" "1" \
    "$(sed -n '/"meters"/,$p' again/written.stats.json | sed -n 's/.*"lux": \([0-9.]*\),/\1/p' |
        head -n 1 | awk '{print ($1 > 196 && $1 < 204)}')"

"$dapple" balance out/set.exr "face = f/22" >printed 2>stderr
expect "an impossible target is no error" 0 $?
expect "it is named with how near it gets" "1" "$(grep -c '^face = f/22.*not reached: .* stops too dark' printed)"
expect "and with the lamp that would have to give more" 1 \
    "$(grep -c '^face = f/22: alone it gets to f/.*, with key at full$' printed)"
expect "and how much more" 1 \
    "$(grep -c '^Every target would be reached if key gave 4.6 stops more than at full.$' printed)"
expect "a lamp that gives the face next to nothing stays as it is" 1 \
    "$(grep -c '^All dimmers stay as they are.$' printed)"
"$dapple" balance out/set.exr "key:fill at face = 1" "face = 4" >printed 2>stderr
expect "what is turned up to its limit is named" "At full: fill." "$(grep '^At full' printed)"

"$dapple" balance out/set.exr "key to fill = 100:1" >printed 2>stderr
expect "a ratio alone: exit code" 0 $?
expect "a ratio alone holds the key and says so" 1 \
    "$(grep -c '^Only ratios are wanted, so their brighter sides keep their level: key at face.$' printed)"
expect "a ratio alone moves the fill only" "fill" \
    "$(sed -n '/^fixture/,/^Only/p' printed | sed '1d;$d' | cut -d ' ' -f 1)"
"$dapple" balance out/set.exr "face = 2.8" >printed 2>stderr
expect "a number alone is an f-number" 1 "$(grep -c '^face = 2.8 .*f/2.8  .*  reached$' printed)"
"$dapple" balance out/set.exr "wall = f/2" >printed 2>stderr
expect "a region may have an f-number" 1 "$(grep -c '^wall = f/2 .*f/' printed)"
"$dapple" render set.toml -o few --passes 3 >/dev/null 2>&1
expect "after three passes the error is not known yet" 1 \
    "$("$dapple" balance few/set.exr "face = 200 lx" | grep -c 'not known yet')"
expect "but it is in the JSON" 0 \
    "$("$dapple" balance few/set.exr "face = 200 lx" --json | grep -c '"stderr_stops": null')"

# refused NAME LINE ARGUMENTS
refused() {
    name=$1
    line=$2
    shift 2
    cp set.toml kept.toml
    "$dapple" balance "$@" --write kept.toml >printed 2>stderr
    expect "$name: exit code" 2 $?
    expect "$name: one line" "$line" "$(cat stderr)"
    expect "$name: the set file is untouched" "" "$(diff set.toml kept.toml)"
}
refused "unknown meter" "fase = f/4: names no light of this film; did you mean face?" \
    out/set.exr "fase = f/4"
refused "no target" "face: must be \"METER = f/4\" (or 5.6, 800 lx, 0.5 stops), \"REGION = -1 stop\" \
(or f/4), \"A:B = 4\" (or 4:1, 2 stops), \"A to B = 4\", \"A:B at METER = 4\" (or REGION, figure); A and B \
are two fixtures or two meters" out/set.exr "face"
refused "no fixture reaches it" "face = f/4: no fixture that may be dimmed lights it" \
    out/set.exr "face = f/4" --keep key --keep fill
refused "no EXR" "set.toml: is not an EXR, or is damaged" set.toml "face = f/4"
sed 's/"fill"/"filler"/' set.toml >other.toml
cp other.toml kept.toml
"$dapple" balance out/set.exr "face = 100 lx" --write kept.toml >printed 2>stderr
expect "another set: refused and untouched" \
    '2 kept.toml: fixture.fill.dimmer: the set has none of the name "fill"; did you mean "filler"? ' \
    "$? $(cat stderr) $(diff other.toml kept.toml)"

exit $((failures > 0))
