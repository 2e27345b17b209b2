#!/bin/sh
# The screen, the files and the refusals of dapple judge.
set -u
. "$(dirname "$0")/program.sh"

write_set set.toml
cat >>set.toml <<'SET'
[[region]]
name = "back wall"
surface = "wall_back"
[[region]]
name = "too small"
rect_px = [0, 0, 3, 3]
[[meter]]
name = "face"
position = [0.0, 1.2, -1.0]
facing = [1.0, 2.0, 1.0]
SET

# ---- The screen ----------------------------------------------------------------------------------

"$dapple" render set.toml -o out --passes 4 >rendered 2>stderr
"$dapple" judge out/set.exr >judged 2>stderr
expect "judge: exit code" 0 $?
expect "a render ends with the screen of its film" "$(cat judged)" "$(tail -n +6 rendered)"
expect "a folder stands for its film" "$(cat judged)" "$("$dapple" judge out)"
for part in LIGHT RATIOS REGIONS PICTURE "HOT SPOTS"; do
    expect "the screen has the part $part" 1 "$(grep -c "^$part  " judged)"
done
expect "a region that is too small says so" 1 \
    "$(grep -c 'too few pixels.*: too small' judged)"

"$dapple" judge out -o judgement --json >judged.json 2>stderr
expect "--json prints the file" "$(cat judgement/set.judge.json)" "$(cat judged.json)"
expect "-o writes the judgement and the stops map" "judgement/set.judge.json
judgement/set.stops.png" "$(find judgement -type f | sort)"
if command -v python3 >/dev/null; then
    expect "the output of --json is JSON" "" "$(python3 -m json.tool judged.json 2>&1 >/dev/null)"
fi

"$dapple" render set.toml -o once --passes 1 >rendered 2>stderr
expect "after one pass errors are not known yet" 0 "$(grep -c '±' rendered)"
expect "after one pass the screen says once what is not known yet" 1 \
    "$(grep -ci 'not known yet' rendered)"
expect "after one pass the JSON has no texture" '      "texture_stops": null,' \
    "$("$dapple" judge once --json | grep '"texture_stops": ' | head -n 1)"

# ---- Refusals ------------------------------------------------------------------------------------

# refused CLAIM LINE ARGUMENTS...: one line, exit code 2, nothing on standard output.
refused() {
    claim=$1
    line=$2
    shift 2
    out=$("$dapple" judge "$@" 2>"$work/stderr")
    expect "$claim: exit code" 2 $?
    expect "$claim: nothing on standard output" "" "$out"
    expect "$claim" "$line" "$(cat "$work/stderr")"
}

mkdir empty several
refused "a folder without a film" "empty: holds no .exr; give the folder of a render" empty
cp out/set.exr several/a.exr
cp out/set.exr several/b.exr
refused "a folder with two films" \
    "several: holds 2 .exr files; name one, such as several/a.exr" several
echo "not a film" >text.exr
head -c 3000 out/set.exr >cut.exr
for film in missing.exr text.exr cut.exr set.toml out/set.png; do
    "$dapple" judge "$film" >stdout 2>stderr
    expect "$film: exit code" 2 $?
    expect "$film: one line that names it" 1 "$(grep -c "^$film: " stderr)"
    expect "$film: one line in all" 1 "$(wc -l <stderr)"
    expect "$film: nothing on standard output" "" "$(cat stdout)"
done
echo "a file" >file
refused "an output folder below a file" \
    "file/out: cannot be made a folder: Not a directory" out -o file/out

exit $((failures > 0))
