#!/bin/sh
# dapple search: places that are tried, left out, kept at Ctrl-C, checked and written into a set.
set -u
. "$(dirname "$0")/program.sh"

write_set set.toml 's/^output_lm.*/output_lm = 800  # lm, as it is/'
cat >>set.toml <<'END_SET'

# the jar
[[glass]]
name = "jar"
form = "jar"
position = [0.7, 1.2, 0.4]   # in the beam
height_mm = 260
diameter_mm = 120
surface = "ribbed"

[[region]]
name = "back"
surface = "wall_back"
END_SET
cp set.toml first.toml

# rated FILE: tries in tries.csv that could be used.
rated() {
    grep -c ',$' "$1"
}

# The room ends at x = 2, so a part of the places is outside.
"$dapple" search set.toml --move jar --vary x=0..3 --vary turn=0..90 --want "back.texture=more" \
    -o found --tries 8 --check 3 --passes 2 >printed 2>stderr
expect "a search: exit code" 0 $?
expect "a search: the tries" 8 "$(rated found/tries.csv)"
expect "places outside are left out, and it says why" 1 \
    "$(grep -c 'outside the room\|through the wall_right' found/tries.csv | sed 's/[0-9][0-9]*/1/')"
expect "the chosen places and the set as it is are rendered" 4 "$(ls found/*/set.png | wc -l)"
expect "they have two passes each" 4 "$(grep -c '"passes": 2,' found/overnight.json)"
expect "the sheet" "found/sheet.html found/sheet.pdf found/sheet.png" \
    "$(ls found/sheet* | tr '\n' ' ' | sed 's/ $//')"
expect "the places are printed" "1. 2. 3. 4." "$(grep -o '^[0-9]\.' printed | tr '\n' ' ' | sed 's/ $//')"
expect "no chosen place is outside" 0 \
    "$(sed -n 's/^[0-9]\. \([0-9.]*\),.*/\1/p' printed | awk '$1 > 2' | wc -l)"

best=$(grep -v 'as it is' printed | sed -n '1s/^\([0-9]\)\..*/\1/p')
"$dapple" search set.toml -o found --place "$best" --write copy.toml >printed2 2>stderr
expect "a place into a copy: exit code" 0 $?
expect "it is the one that was printed" \
    "$(sed -n "s/^$best\\. \([^m]*\) m, turn.*/position = [\1]   # in the beam/p" printed)" \
    "$(grep '^position.*# in the beam' copy.toml)"
expect "only its values differ" "name = \"jar\" turn_deg position" \
    "name = \"jar\" $(diff first.toml copy.toml | sed -n 's/^> \([a-z_]*\) .*/\1/p' | tr '\n' ' ' | sed 's/ $//')"
expect "the copy is a good set" 0 "$("$dapple" check copy.toml --strict >/dev/null 2>&1; echo $?)"
expect "the set itself is as it was" "" "$(diff first.toml set.toml)"
now=$(sed -n 's/^\([0-9]\)\. as it is.*/\1/p' printed)
"$dapple" search set.toml -o found --place "$now" --write copy.toml >printed2 2>stderr
expect "the set as it is has a number, too" "found/search.json: place $now is the set as it is" "$(cat stderr)"
"$dapple" search set.toml -o found --place "$best" --write set.toml >printed2 2>stderr
expect "a place into the set" "" "$(diff copy.toml set.toml)"
cp first.toml set.toml

# ---- Ratios --------------------------------------------------------------------------------------

write_set sides.toml 's/^frame_px.*/frame_px = [96, 64]/'
cat >>sides.toml <<'END_SET'

[[fixture]]
name = "fill"
position = [-1.5, 1.5, 1.0]
aim = [0.0, 1.2, -1.0]
beam_angle_deg = 40.0
output_lm = 100
source_mm = 30.0

[[stand_in]]
name = "figure"
position = [0.0, 0.0, -1.0]
END_SET
"$dapple" search sides.toml --move fill --within 0.3 --want key:fill=3 --want "lit side.brightness=more" \
    -o sides --tries 2 --check 1 --passes 2 >printed 2>stderr
expect "a ratio and a side of the figure are wished for: exit code" 0 $?
expect "both are measured, with their errors" 2 \
    "$(grep -c 'figure key : fill [0-9.]* ± [0-9.]* : 1; figure, lit side mean luminance [0-9.]* ±' printed)"

# ---- Ctrl-C --------------------------------------------------------------------------------------

set -- search set.toml --move jar --within 0.2 --want "back.brightness=more" \
    --want "wall_left.brightness=less" --want "wall_left.cover=more" -o kept --passes 2 --check 1
"$dapple" "$@" --tries 100000 >printed 2>stderr &
program=$!
wait_for kept/search.json $program
kill -INT $program
wait $program
expect "Ctrl-C: stopped early, results kept" 3 $?
made=$(($(wc -l <kept/tries.csv) - 1))
expect "Ctrl-C: tries are kept" 1 $((made > 0))
cp kept/tries.csv earlier.csv
"$dapple" "$@" --tries 8 >printed 2>stderr
expect "the same command goes on: exit code" 0 $?
first=$((made < 5 ? made : 5)) # of 8 tries the first five are spread
expect "it takes the earlier tries" "$(head -n $((first + 1)) earlier.csv)" \
    "$(head -n $((first + 1)) kept/tries.csv)"

# ---- What is refused -----------------------------------------------------------------------------

refused() {
    claim=$1
    line=$2
    shift 2
    "$dapple" search set.toml "$@" >printed 2>stderr
    expect "$claim: exit code" 2 $?
    expect "$claim" "$line" "$(grep -v '^try \|^checking' stderr)"
}
refused "no such thing" \
    '--move: nothing that has its position in numbers is called "jat"; did you mean "jar"?' \
    -o bad --move jat --within 1 --want back.texture=more
refused "no such region" \
    '--want: the set has no region, meter or surface "bakc"; did you mean "back"?' \
    -o bad --move jar --within 1 --want bakc.texture=more
refused "no such measure" \
    '--want: back.textur_stops: there is no measure "textur_stops"; did you mean "texture_stops"?' \
    -o bad --move jar --within 0.1 --want back.textur_stops=more
refused "bounds without an end" \
    '--vary: is "turn=3"; write WHAT=FROM..TO, such as turn=0..15' \
    -o bad --move jar --vary turn=3 --want back.texture=more
refused "no such fixture" \
    '--vary: there is no fixture "kex"; did you mean "key"?' \
    -o bad --move jar --vary "distance from kex=0.1..1" --want back.texture=more
refused "nothing varies" \
    '--vary: nothing varies; give --within or --vary' -o bad --move jar --want back.texture=more
refused "another search" \
    'kept/search.json: is another search, or the set was edited; --restart begins anew, or give another folder with -o' \
    --move jar --within 0.3 --want back.brightness=more -o kept
"$dapple" search set.toml -o bad --move jar --vary height=5..6 --want back.texture=more >printed 2>stderr
expect "no place that can be used: exit code" 2 $?
expect "no place that can be used: it says why" 1 \
    "$(grep -c 'no place within these bounds can be used; most often:.*outside the room' stderr)"
"$dapple" search set.toml -o found --place 9 --write copy.toml >printed 2>stderr
expect "a place that is not there" "found/search.json: has no place 9; there are 4" "$(cat stderr)"

exit $((failures > 0))
