#!/bin/sh
# Wrong input of any kind gives one clear line on standard error and exit code 2. The results of an
# earlier run stay as they were.
set -u
. "$(dirname "$0")/program.sh"

# All files in out/ and their checksums.
results() {
    find out | sort
    find out -type f -exec cksum {} + | sort
}
mkdir -p out
for kind in png exr stats.json luminance.csv passes; do echo before >"out/set.$kind"; done

# refused CLAIM LINE ARGUMENTS...
refused() {
    claim=$1
    line=$2
    shift 2
    before=$(results)
    out=$("$dapple" "$@" 2>"$work/stderr")
    expect "$claim: exit code" 2 $?
    expect "$claim: nothing on standard output" "" "$out"
    expect "$claim" "$line" "$(grep -v '^note: ' "$work/stderr")"
    expect "$claim: earlier results are as they were" "$before" "$(results)"
}
# refused_set CLAIM LINE SED_SCRIPT: the small set with one change.
refused_set() {
    write_set set.toml "$3"
    refused "$1" "$2" render set.toml -o out --passes 1
}

# ---- The set file --------------------------------------------------------------------------------

refused "a missing set file" "none.toml: no such file" render none.toml -o out
refused_set "TOML syntax" \
    "set.toml:15:13: Error while parsing value: could not determine value type; words, fractions and units need quotation marks, such as \"1/60\"" 's/= 800/= = 800/'
refused_set "an unknown key" \
    'set.toml:13:1: fixture "key": beam_angel_deg: unknown key; did you mean beam_angle_deg?' \
    's/beam_angle_deg/beam_angel_deg/'
refused_set "a wrong type" \
    'set.toml:15:13: fixture "key": output_lm: is true or false; must be a number' 's/= 800/= true/'
refused_set "a text that is no number" \
    'set.toml:15:13: fixture "key": output_lm: is "much", which is no number; write 900 or "900 lm"' 's/= 800/= "much"/'
refused_set "a negative length" \
    'set.toml:16:1: fixture "key": source_mm: is -30; must be from 0 to 10000' 's/30\.0/-30.0/'
refused_set "a negative length of the room" \
    'set.toml:2:1: room: size_m: has -2.6; all three must be above 0, up to 10000' 's/2\.6\]/-2.6]/'
refused_set "a field angle that is not above the beam angle" \
    'set.toml:14:1: fixture "key": field_angle_deg: is 20; must be above the beam angle, 20, and below 180' 's/40\.0/20.0/'
refused_set "two outputs" \
    'set.toml:16:1: fixture "key": has 2 outputs; give exactly one of output_lm, peak_cd, lux = { value, at_m }' '/output_lm/a peak_cd = 100'
refused_set "NaN" \
    'set.toml:15:13: fixture "key": output_lm: is nan; must be a finite number' 's/= 800/= nan/'
refused_set "a camera that looks nowhere" \
    'set.toml:6:1: camera: aim: equals the position: the camera looks nowhere' 's/aim = \[0\.0, 1\.0, -2\.0\]/aim = [0.0, 1.2, 1.5]/'

# ---- Positions -----------------------------------------------------------------------------------

refused_set "a fixture behind the walls of a box room" \
    'set.toml:11:1: fixture "key": position: is outside the room: z is 2.2; must be from -2 to 2' 's/\[1\.0, 2\.0, 1\.0\]/[1.0, 2.0, 2.2]/'
refused_set "a camera behind the walls of a box room" \
    'set.toml:5:1: camera: position: is outside the room: z is -2.5; must be from -2 to 2' 's/\[0\.0, 1\.2, 1\.5\]/[0.0, 1.2, -2.5]/'
refused_set "a lamp that a wall cuts" \
    'set.toml:11:1: fixture "key": position: the lamp is cut by "wall_right"; move it clear of walls and things' 's/\[1\.0, 2\.0, 1\.0\]/[1.995, 2.0, 1.0]/'

refused_set "a fixture with y and z exchanged" \
    'set.toml:11:1: fixture "key": position: is outside the room: y is -1; must be from 0 to 2.6; with y and z exchanged it would be inside: position = [1, 2, -1] (y is up)' 's/\[1\.0, 2\.0, 1\.0\]/[1.0, -1.0, 2.0]/'

in_model='s/^size_m.*/model = "model.obj"/'
{
    printf 'usemtl walls\n'
    box room -2 0 -2 2 2.6 2
    printf 'usemtl pillar\n'
    box solid 0.8 0 0.8 1.2 2.6 1.2
} >model.obj
refused_set "a fixture inside a thick wall of a model" \
    'set.toml:11:1: fixture "key": position: is separated from the camera by "pillar", a closed surface around one of the two' "$in_model"

# ---- Models --------------------------------------------------------------------------------------

refused_set "a surface name that the model lacks" \
    'set.toml:18:1: surface "wals": name: is "wals"; the room has no surface of this name; did you mean "walls"?' "$in_model; s/2\.0, 1\.0\]/2.0, 0.5]/; \$a [[surface]]\\nname = \"wals\"\\nreflectance = 0.5"
rm model.obj
refused_set "a model that is missing" \
    'set.toml:2:1: room: model: is "model.obj"; there is no such file' "$in_model"
: >model.obj
refused_set "an empty model" \
    'model.obj: has no faces' "$in_model"
box open 0 0 0 0.1 0.1 0.1 >cup.obj
glass='$a [[glass]]\nmodel = "cup.obj"\nposition = [0, 0, 0]'
refused_set "an open mesh as glass" \
    'set.toml:18:1: glass 1: model: "cup.obj" has 4 open edges, the first near (0.05, 0.1, 0.1) m; glass must be closed' "$glass"
box solid 0 0 0 0.1 0.1 0.1 | sed '2s/0\.1 0 0/0.1 nan 0/' >cup.obj
refused_set "NaN in a model" \
    'cup.obj:2:7: v: "nan" is not a finite number' "$glass"

# ---- Sets that cannot be -------------------------------------------------------------------------

write_set set.toml '$a [[glass]]\nname = "ball"\nform = "ball"\nposition = [0, 1, -2.5]'
warning='warning: set.toml:20:1: glass "ball": position: is outside the room: z is -2.5, and the room goes from -2 to 2; inside: position = [0, 1, -1.96]'
for command in check plan "render -o doubted --passes 1"; do
    # shellcheck disable=SC2086  # words are arguments
    "$dapple" $command set.toml >"$work/stdout" 2>"$work/stderr"
    expect "$command goes on after a warning" 0 $?
    expect "$command prints the warning" "$warning" "$(grep '^warning' "$work/stderr")"
done
for command in plan meter "render -o out --passes 1"; do
    # shellcheck disable=SC2086
    refused "$command --strict" "$warning" $command set.toml --strict
done
"$dapple" check set.toml --strict >"$work/stdout" 2>"$work/stderr"
expect "check --strict has the exit code of bad input" 2 $?

# ---- Output files --------------------------------------------------------------------------------

write_set set.toml
echo "a file" >file
refused "an output folder below a file" \
    "file/out: cannot be made a folder: Not a directory" render set.toml -o file/out --passes 1
for kind in png exr stats.json; do
    mkdir -p "in_the_way/set.$kind"
    refused "a folder where set.$kind goes" \
        "in_the_way/set.$kind: cannot be written: Is a directory" \
        render set.toml -o in_the_way --passes 1
    expect "a folder where set.$kind goes: nothing is left beside it" \
        "in_the_way/set.$kind" "$(find in_the_way -mindepth 1)"
    rm -r in_the_way
done
# A limit on the size of files, smaller than the picture, stands for a full disk.
(
    trap '' XFSZ
    ulimit -f 2
    exec "$dapple" render set.toml -o out --passes 1 --width 200 >"$work/stdout" 2>"$work/stderr"
)
expect "a full disk: exit code" 2 $?
expect "a full disk" "out/set.png: cannot be written: File too large" \
    "$(tail -n 1 "$work/stderr")"
expect "a full disk: the earlier picture is as it was" before "$(cat out/set.png)"

# ---- Options -------------------------------------------------------------------------------------

refused "an unknown option" \
    'dapple: The following argument was not expected: --fast; see dapple --help' render set.toml -o out --fast
refused "a misspelt option" \
    'dapple: The following argument was not expected: --resme; did you mean --resume?; see dapple --help' render set.toml -o out --resme
refused "an option of another command" \
    'dapple: The following argument was not expected: --set (--set is an option of rebalance); see dapple --help' check set.toml --set
refused "no passes" \
    'dapple: --passes: is 0; must be a whole number from 1 to 1000000000; see dapple --help' render set.toml -o out --passes 0
refused "half a pass" \
    'dapple: --passes: is 1.5; must be a whole number from 1 to 1000000000; see dapple --help' render set.toml -o out --passes 1.5
refused "an unknown transport" \
    'dapple: --transport: nonsense not in {full,walks,camera,partition}; see dapple --help' render set.toml -o out --transport nonsense
refused "a frame without width" \
    'dapple: --width: is 0; must be a whole number from 1 to 16384; see dapple --help' render set.toml -o out --width 0
refused "a time that never ends" \
    'dapple: --seconds: is inf; must be a number above 0; see dapple --help' render set.toml -o out --seconds inf
refused "a time that is no number" \
    'dapple: --seconds: is nan; must be a number above 0; see dapple --help' render set.toml -o out --seconds nan
refused "a negative seed" \
    'dapple: --seed: is -1; must be a whole number from 0 to 18446744073709551615; see dapple --help' render set.toml -o out --seed -1
refused "no set file" \
    'dapple: SET is required; see dapple --help' render -o out
refused "an unknown command" \
    'dapple: animate: no such command; there are new, render, check, desk, meter, judge, kit, keys, plan, rebalance, balance, search, overnight, merge, sheet, completion, manual; see dapple --help' animate set.toml
refused "no command" \
    'dapple: give a command: new, render, check, desk, meter, judge, kit, keys, plan, rebalance, balance, search, overnight, merge, sheet, completion, manual; see dapple --help'

# ---- Many at once --------------------------------------------------------------------------------

write_set set.toml 's/= 800/= "much"/; s/30\.0/-30.0/; s/iso/x/'
"$dapple" render set.toml -o out 2>"$work/stderr"
expect "all problems are reported together" 2 "$(grep -c '^set.toml:' "$work/stderr")"
"$dapple" check set.toml 2>"$work/checked"
expect "check has the exit code of render" 2 $?
expect "check prints the same problems" "$(cat "$work/stderr")" "$(cat "$work/checked")"

exit $((failures > 0))
