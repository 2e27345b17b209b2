#!/bin/sh
# Results of one set are not overwritten by another set of the same name; its own may be.
set -u
. "$(dirname "$0")/program.sh"

mkdir first second
meter='$a [[meter]]\nname = "hand"\nposition = [0.0, 1.0, -1.0]\nfacing = "camera"'
write_set first/set.toml "$meter"
write_set second/set.toml "$meter"
"$dapple" render first/set.toml -o out --passes 1 >printed 2>stderr
expect "where the results go is said first" "results: out/set.png, .exr, .stats.json, .mask.png" \
    "$(head -n 1 stderr)"
"$dapple" meter first/set.toml -o out --passes 4 >printed 2>stderr
"$dapple" plan first/set.toml -o out --passes 4 >printed 2>stderr
"$dapple" judge out/set.exr -o out >printed 2>stderr
owner=$(cd first && pwd -P)/set.toml

"$dapple" sheet out/set.exr -o sheets >printed 2>stderr

# refused FILE ARGUMENTS...
refused() {
    file=$1
    shift
    before=$(find out -type f -exec cksum {} + | sort)
    "$dapple" "$@" >printed 2>stderr
    expect "$*: exit code" 2 $?
    expect "$*: the line" "$file: is a result of another set of this name, $owner; give another folder with -o, or move those results away" \
        "$(tail -n 1 stderr)"
    expect "$*: nothing is overwritten" "$before" "$(find out -type f -exec cksum {} + | sort)"
}
refused out/set.stats.json render second/set.toml -o out --passes 1
refused out/set.meters.json meter second/set.toml -o out --passes 4
refused out/set.plan.json plan second/set.toml -o out --passes 4
"$dapple" render second/set.toml -o other --passes 1 >printed 2>stderr
refused out/set.stats.json rebalance other/set.exr --off key -o out
refused out/set.judge.json judge other/set.exr -o out

# Sheets: the frames of a render, and earlier sheets.
refused out/set.stats.json sheet other/set.exr -o out
before=$(find sheets -type f -exec cksum {} + | sort)
"$dapple" sheet other/set.exr -o sheets >printed 2>stderr
expect "sheets of another set: exit code" 2 $?
expect "sheets of another set: the line" "sheets/sheet.json: the sheets in the folder are of another set, $owner; give another folder with -o, or move those results away" \
    "$(tail -n 1 stderr)"
expect "sheets of another set are not overwritten" "$before" \
    "$(find sheets -type f -exec cksum {} + | sort)"
"$dapple" sheet out other -o sheets >printed 2>stderr
expect "sheets that the set is among may be made anew" 0 $?
mkdir night
echo '{}' >night/overnight.json
"$dapple" sheet out -o night >printed 2>stderr
expect "the sheet of a night: exit code" 2 $?
expect "the sheet of a night is not overwritten" "night/overnight.json: the folder has the sheet of a night; give another folder with -o" \
    "$(tail -n 1 stderr)"

# The set's own results are made anew, from anywhere and after an edit.
echo '# edited' >>first/set.toml
(cd first && "$dapple" render ./set.toml -o ../out --passes 1 >/dev/null 2>&1)
expect "the same set may render again" 0 $?
mv first moved
"$dapple" render moved/set.toml -o out --passes 1 >printed 2>stderr
expect "a set that was moved may render again" 0 $?

exit $((failures > 0))
