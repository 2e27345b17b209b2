#!/bin/sh
# dapple overnight, killed at random instants of the whole run, while it plans, renders, writes
# films and sheets: the films have the bits of an undisturbed run, none is lost and none double.
# The number of kills may be given after the program: 200 take some minutes.
set -u
. "$(dirname "$0")/program.sh"
kills_wanted=${2:-11}

write_set set.toml 's/frame_px.*/frame_px = [40, 27]/'
cat >night.toml <<'END_NIGHT'
set = "set.toml"
[vary]
"fixture.key.beam_angle_deg" = [15, 25, 35]
"fixture.key.dimmer" = [1, 0.5]
END_NIGHT
night() {
    "$@" "$dapple" overnight night.toml -o "$folder" --passes 9 --threads 1 >printed 2>stderr
}

# Compares all that is left with the undisturbed run.
compare() {
    for file in whole/*/set.passes whole/*/set.png whole/*/set.toml; do
        expect "$file has the same bits" "" "$(cmp "$file" "killed/${file#whole/}" 2>&1)"
    done
    expect "none is lost, none double" "$(grep '"name"' whole/overnight.json)" \
        "$(grep '"name"' killed/overnight.json)"
    expect "all passes of all" 6 "$(grep -c '"passes": 9' killed/overnight.json)"
    expect "the table is the same" "" "$(cmp whole/table.csv killed/table.csv 2>&1)"
    expect "nothing is half written" "" "$(find killed -name '*.partial')"
    # The head of the file has the minute in which it was made.
    expect "the sheet is the same" "$(tail -c 3000 whole/sheet.png | cksum)" \
        "$(tail -c 3000 killed/sheet.png | cksum)"
}

# The shortest time of a whole run so far, ns: other work on this machine makes single ones longer.
length=600000000000
note_length() {
    now=$(($(date +%s%N) - start))
    [ $now -gt $length ] || length=$now
}

folder=whole
start=$(date +%s%N)
night
expect "undisturbed: exit code" 0 $?
note_length

folder=killed
kills=0
tries=0
seed=4
while [ $kills -lt "$kills_wanted" ] && [ $failures -eq 0 ]; do
    tries=$((tries + 1))
    seed=$(((seed * 1103515245 + 12345) % 2147483648))
    instant=$(awk "BEGIN { print $length * $seed / 2147483648 / 1e9 }")
    [ -d killed ] || is_whole=yes
    start=$(date +%s%N)
    night timeout -s KILL "$instant"
    case $? in
        137) kills=$((kills + 1)) && is_whole=no ;;
        0)
            [ $is_whole = no ] || note_length
            compare && rm -r killed
            ;;
        *) expect "after a kill: $(cat stderr)" "no error" "an error" ;;
    esac
done 2>/dev/null
[ -d killed ] || mkdir killed
night
expect "the last run: exit code" 0 $?
compare
if [ $kills -gt 100 ]; then echo "$kills kills in $((tries + 1)) starts"; fi

exit $((failures > 0))
