#!/bin/sh
# dapple overnight: all variants, also after kills; and the input that it refuses.
set -u
. "$(dirname "$0")/program.sh"

mkdir sets && write_set sets/set.toml
cat >>sets/set.toml <<'END_SET'

[[flag]]
name = "wing"
position = [0.5, 1.2, 0.2]
aim = [1.0, 2.0, 1.0]
size_m = [0.4, 0.4]

[[region]]
name = "back"
surface = "wall_back"

[[meter]]
name = "face"
position = [0.0, 1.2, -1.0]
facing = "key"
END_SET
cat >night.toml <<'END_NIGHT'
set = "sets/set.toml"
name = "beam {fixture.key.beam_angle_deg}, {flag.wing} wing, {fixture.key.dimmer}"
[vary]
"fixture.key.beam_angle_deg" = [15, 25]
"flag.wing" = [true, false]
"fixture.key.dimmer" = { from = 0.5, to = 1, steps = 2 }
[rank]
"back.mean_luminance" = "most"
END_NIGHT

"$dapple" overnight night.toml -o none --dry-run >printed 2>stderr
expect "dry run: exit code" 0 $?
expect "dry run: the variants" 8 "$(wc -l <printed)"
expect "dry run: what is shared" 1 "$(grep -c '^8 variants from 4 films' stderr)"
expect "dry run: no folder" "" "$(ls none 2>/dev/null)"

"$dapple" overnight night.toml -o whole --passes 6 >printed 2>stderr
expect "a night: exit code" 0 $?
expect "a night: a picture of each" 8 "$(ls whole/*/set.png | wc -l)"
expect "a night: six passes each" 8 "$(grep -c '"passes": 6' whole/overnight.json)"
expect "a contact sheet" "whole/sheet.html whole/sheet.pdf whole/sheet.png" "$(ls whole/sheet* | tr '\n' ' ' | sed 's/ $//')"
expect "the table has all" 9 "$(wc -l <whole/table.csv)"
expect "the brightest is first" "1. beam 25, without wing, 1" "$(head -1 printed)"
set_file=whole/beam-15-without-wing-1/set.toml
expect "the set file of a variant is whole" 0 "$("$dapple" check "$set_file" >/dev/null 2>&1; echo $?)"
expect "a flag that is out is not in it" 0 "$(grep -c wing "$set_file")"

cp -r whole killed
expect "a night that is done has nothing left to do" 0 \
    "$("$dapple" overnight night.toml -o killed --passes 6 >/dev/null 2>&1; echo $?)"

# A checkpoint that is damaged is made anew, to the same bits.
one=beam-15-with-wing-0.5/set.passes
head -c 3000 "whole/$one" >"killed/$one"
"$dapple" overnight night.toml -o killed --passes 7 >printed 2>stderr
expect "a damaged checkpoint: done" 0 $?
expect "a damaged checkpoint: it is told and set aside" 1 "$(grep -c 'is damaged; it is now' stderr)"
expect "a damaged checkpoint: all passes are made" 8 "$(grep -c '"passes": 7' killed/overnight.json)"

# What is known before, and how far a night is that has nothing to show yet.
expect "how long it takes is said after the first pass" 1 \
    "$("$dapple" overnight night.toml -o timed --passes 2 2>&1 >/dev/null | grep -c \
        '^The first pass took .* a pass of every film takes .* or less, and 2 passes of each .* or less\.$')"
message=$("$dapple" overnight --status -o nothing 2>&1)
expect "no night: it says so" \
    "2 nothing: holds no night; dapple overnight VARIANTS -o nothing begins one" "$? $message"
mkdir young
cat >young/progress.json <<'END_PROGRESS'
{"running": "beam 15", "passes": 1, "passes_to": 2, "turn_ends": 1800000000, "done": 0, "begun": 0,
 "waiting": 8, "failed": 0, "worked_s": 60, "stops": null, "finish": null, "sheet": null}
END_PROGRESS
message=$("$dapple" overnight --status -o young 2>&1)
expect "a young night: exit code" 0 $?
expect "a young night has no list yet" \
    "no variant is finished yet; the list and the sheet come with the first" \
    "$(echo "$message" | tail -n 1)"

# A set that was edited.
sed -i 's/800/900/' sets/set.toml
"$dapple" overnight night.toml -o whole --passes 7 >printed 2>stderr
expect "an edited set: refused" 2 $?
expect "an edited set: it is told" 1 "$(grep -c 'was made from another set' stderr)"
expect "an edited set: nothing is lost" 8 "$(grep -c '"passes": 6' whole/overnight.json)"
"$dapple" overnight night.toml -o whole --passes 2 --restart >printed 2>stderr
expect "--restart makes all anew" 8 "$(grep -c '"passes": 2' whole/overnight.json)"

refused() {
    "$dapple" overnight night.toml -o bad --passes 2 >printed 2>stderr
    expect "$1: exit code" 2 $?
    expect "$1: the line" "$2" "$(grep night.toml stderr)"
    expect "$1: no folder" "" "$(ls bad 2>/dev/null)"
}
# with_rank MEASURE: a night that ranks by it.
with_rank() {
    printf 'set = "sets/set.toml"\n[vary]\n"fixture.key.dimmer" = [1, 0.5]\n[rank]\n"%s" = "most"\n' \
        "$1" >night.toml
}
with_rank back.texture_stop
refused "no such measure" \
    'night.toml:5:23: rank.back.texture_stop: "texture_stop" is no measure of a region; did you mean "texture_stops"?'
with_rank frame.lux
refused "a measure of something else" \
    'night.toml:5:15: rank.frame.lux: "lux" is no measure of the frame; there are mean, median, min, max, p01, p05, p95, p99, deep_shadow_share, clipped_share, saturated_share'
with_rank bck.cover
refused "no such part" \
    'night.toml:5:15: rank.bck.cover: the set has no region or meter "bck"; did you mean "back"?'
# All that KEYS.md lists can be ranked by.
sed -n '/^A measure is/,$p' "$scenes/KEYS.md" | sed -n 's/^- of .*\(region\|meter\|frame\)`\{0,1\}: /\1 /p' |
    while read -r kind line; do
        case $kind in region) part=back ;; meter) part=face ;; *) part=frame ;; esac
        echo "$line" | grep -o '`[a-z0-9_]*`' | tr -d '`' | while read -r key; do
            with_rank "$part.$key"
            "$dapple" overnight night.toml -o bad --dry-run >printed 2>stderr
            echo "$? $part.$key"
        done
    done >tried
expect "measures in KEYS.md: all were tried" 21 "$(wc -l <tried)"
expect "measures in KEYS.md: each is known" "" "$(grep -v '^0 ' tried)"

printf 'set = "sets/none.toml"\n[vary]\n"fixture.key.dimmer" = [1]\n' >night.toml
refused "no such set" 'night.toml:1:7: set: sets/none.toml: no such file'
printf 'set = "sets/set.toml"\n[vary]\n"fixture.kee.dimmer" = [1]\n' >night.toml
refused "no such fixture" \
    'night.toml:3:24: fixture.kee.dimmer: the set has none of the name "kee"; did you mean "key"?'
printf 'set = "sets/set.toml"\n[vary]\n"fixture.key.dimmer" = [1, -2]\n' >night.toml
"$dapple" overnight night.toml -o bad --passes 2 >printed 2>stderr
expect "a value that cannot be: exit code" 2 $?
expect "a value that cannot be: the variant is named" 1 \
    "$(grep -c '^night.toml:1:7: variant "[^"]*": .*dimmer: is -2' stderr)"

exit $((failures > 0))
