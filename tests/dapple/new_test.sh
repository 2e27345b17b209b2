#!/bin/sh
# dapple new: a first set file that needs no mending, for rooms of any size.
set -u
. "$(dirname "$0")/program.sh"

# check_clean FILE: nothing wrong, no notes, nothing in the frame that should not be seen.
check_clean() {
    "$dapple" check "$1" >checked 2>stderr
    expect "$1: check's exit code" 0 $?
    expect "$1: nothing to note" "" "$(cat stderr)"
    expect "$1: one line, and one for each figure" 1 "$(grep -vc '^figure' checked)"
}

"$dapple" new "Old dance hall" >printed 2>stderr </dev/null
expect "new: exit code" 0 $?
expect "new: the file that it has written" old-dance-hall.toml "$(cat printed)"
check_clean old-dance-hall.toml
expect "what the set holds is counted by kind" 1 \
    "$(grep -c ': 1 fixture, 1 figure, 1 meter, 1 region, ' checked)"
"$dapple" render old-dance-hall.toml -o out --passes 2 --width 60 --json >stats 2>stderr
expect "new: it renders" 0 $?
expect "a meter at the face is near the camera's setting" 1 \
    "$(grep '"stops_from_camera"' stats | head -n 1 | awk '{ print ($2 > -0.7 && $2 < 0.7) }')"

n=0
while IFS=';' read -r room camera lens figure; do
    n=$((n + 1))
    "$dapple" new "Room $n" -o sets --room "$room" --camera "$camera" --lens "$lens" \
        --figure "$figure" >printed 2>stderr
    expect "room $n: exit code" "0 " "$? $(grep -v '^Render it' stderr)"
    check_clean "sets/room-$n.toml"
done <<'END_ROOMS'
2.5 x 3 x 2.3 m;1.5 m;35;1.6 m
3 x 9 x 2.4;7;85;5'7"
20 x 30 x 8 m;6 m;24 mm;none
26 x 40 x 12 ft;10 ft;50;6 ft 2 in
4m x 500cm x 10ft;3.5;135;1.2
5 x 7 x 3 m;3 m;50;seated
3 x 4 x 2.5 m;2 m;85;1.85 m seated
15 x 18 x 5;2;100;2
END_ROOMS

expect "a seated figure sits on a stool, and check says where" \
    'figure "figure": seated, 1.85 m tall; face at [0, 1.28, -1]; needs a seat 43 cm high with its middle at x = 0, z = -1' \
    "$("$dapple" check sets/room-7.toml | grep '^figure')"
expect "a long lens looks at the face, so that the head is not cut off" 'aim = "figure face"' \
    "$(grep -m 1 -o '^aim = "[a-z ]*"' sets/room-7.toml)"
expect "the stool is carried" 1 "$("$dapple" plan sets/room-7.toml | grep -c '^1  *stool, 0.34 m round, 0.43 m high')"

expect "the camera looks at the chest where the whole head fits, else at the face" \
    'room-6 "figure"|room-7 "figure face"|room-8 "figure face"|' \
    "$(for n in 6 7 8; do echo "room-$n $(sed -n '/^\[camera\]/,$s/^aim = \("[a-z ]*"\).*/\1/p' "sets/room-$n.toml" | head -n 1)"; done | tr '\n' '|')"

# Sizes as people write them, and the same size in metres.
n=0
while IFS=';' read -r written size; do
    n=$((n + 1))
    "$dapple" new "Size $n" -o sizes --room "$written" --camera 2 --figure none >printed 2>stderr
    expect "size '$written'" "$size" "$(grep -o '^size_m = [^#]*\]' "sizes/size-$n.toml")"
done <<'END_SIZES'
9 12 4;size_m = [9.00, 12.00, 4.00]
9x12x4;size_m = [9.00, 12.00, 4.00]
9 m by 12 m by 4 m;size_m = [9.00, 12.00, 4.00]
9 m, 12 m, 4 m;size_m = [9.00, 12.00, 4.00]
9, 12, 4;size_m = [9.00, 12.00, 4.00]
9 m 12 m 4 m;size_m = [9.00, 12.00, 4.00]
900 1200 400 cm;size_m = [9.00, 12.00, 4.00]
9,5 × 12 × 4,25;size_m = [9.50, 12.00, 4.25]
30 40 12 ft;size_m = [9.14, 12.19, 3.66]
30 ft 40 ft 12 ft 6 in;size_m = [9.14, 12.19, 3.81]
30' x 40' x 12'6";size_m = [9.14, 12.19, 3.81]
30' 40' 12' 6";size_m = [9.14, 12.19, 3.81]
26 x 40 x 12 ft 6 in;size_m = [7.92, 12.19, 3.81]
26' 40' 12'6";size_m = [7.92, 12.19, 3.81]
END_SIZES

printf '9 12 4\n\n35\n' | "$dapple" new "Through a pipe" >printed 2>stderr
expect "answers come through a pipe" "0 size_m = [9.00, 12.00, 4.00] focal_length_mm = 35" \
    "$? $(grep -o '^size_m = [^#]*\]\|^focal_length_mm = [0-9]*' through-a-pipe.toml | xargs)"
printf '9 12 4\nfar\n' | "$dapple" new "A wrong answer" >printed 2>stderr
expect "a wrong answer through a pipe is told" \
    '2 dapple: answer 2: is "far"; must be a length such as "3 m" or "10 ft"' "$? $(cat stderr)"
expect "and there is no file" "" "$(ls a-wrong-answer.toml 2>/dev/null)"
"$dapple" new "Nobody there" >printed 2>stderr </dev/null
expect "without anybody to ask it says what to do" \
    "Nobody to ask, so this is the usual room; give --room, --camera, --lens and --figure, or pipe one answer a line." \
    "$(head -n 1 stderr)"

# The comments in the file are tables to use: without their # they are a set, too.
sed 's/^# \(\[\[\|name\|kit\|position\|clip_to\|cloth\|aim\)/\1/' old-dance-hall.toml >more.toml
check_clean more.toml
expect "the tables in the comments are used" 1 "$(grep -c '1 glass, 1 cloth, 1 bounce' checked)"

if command -v script >/dev/null; then
    printf '6 x 5\n6 x 5 x 3 m\n\n35\n1.65 m\n' |
        script -qec "$dapple new 'Asked at last'" /dev/null >typed 2>&1
    expect "it asks again after a wrong answer" 1 "$(grep -c 'must be three lengths' typed)"
    expect "answers are used" "size_m = [6.00, 5.00, 3.00] height_m = 1.65" \
        "$(grep -o '^size_m = [^#]*\]\|^height_m.*' asked-at-last.toml | xargs)"
fi

# ---- Refusals ------------------------------------------------------------------------------------

# refused CLAIM LINE ARGUMENTS...
refused() {
    claim=$1
    line=$2
    shift 2
    before=$(find . -type f -exec cksum {} + | sort | grep -v stderr)
    out=$("$dapple" new "$@" 2>stderr </dev/null)
    expect "$claim: exit code" "2 " "$? $out"
    expect "$claim" "$line" "$(cat stderr)"
    expect "$claim: no file" "$before" "$(find . -type f -exec cksum {} + | sort | grep -v stderr)"
}
echo mine >old-dance-hall.toml
refused "a set is never overwritten" \
    "old-dance-hall.toml: is there already; choose another title, or another folder with -o" \
    "Old dance hall"
refused "two lengths" 'dapple: --room: is "4 x 5"; must be three lengths such as "8 x 12 x 4 m", "8 12 4" or "26 x 40 x 12 ft"' \
    hall --room "4 x 5"
refused "a word for a length" 'dapple: --camera: is "far"; must be a length such as "3 m" or "10 ft"' \
    hall --camera far
refused "a camera outside" \
    "dapple: the camera is 9.00 m from what it looks at; the room is 7.00 m long, so at most 6.00 m" \
    hall --camera 9
refused "a room in centimetres" \
    "dapple: a side of the room is 500.00 m; must be from 1.5 to 300 m" hall --room "500 x 700 x 300"
refused "a giant" \
    "dapple: the figure is 3.00 m tall; must be from 0.5 to 2.5 m and fit under the ceiling" \
    hall --figure 3

exit $((failures > 0))
