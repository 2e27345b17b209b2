#!/bin/sh
# dapple overnight --shard and dapple merge: shares in any order are one run, to the bit; and the
# parts that do not belong together.
set -u
. "$(dirname "$0")/program.sh"

mkdir sets && write_set sets/set.toml
cat >>sets/set.toml <<'END_SET'

[[meter]]
name = "face"
position = [0.0, 1.2, -1.0]
facing = [1.0, 2.0, 1.0]

[[region]]
name = "back"
surface = "wall_back"
END_SET
cat >night.toml <<'END_NIGHT'
set = "sets/set.toml"
name = "beam {fixture.key.beam_angle_deg}, {fixture.key.dimmer}"
[vary]
"fixture.key.beam_angle_deg" = [15, 20, 25]
"fixture.key.dimmer" = [1, 0.5]
[rank]
"back.mean_luminance" = "most"
END_NIGHT

# same_films A B CLAIM: all films and the table, to the bit; the same files.
same_films() {
    for passes in "$1"/*/set.passes; do
        expect "$3: ${passes#*/}" "" "$(cmp "$passes" "$2/${passes#*/}" 2>&1)"
    done
    expect "$3: the table" "" "$(cmp "$1/table.csv" "$2/table.csv" 2>&1)"
    for picture in "$1"/*/set.png; do
        expect "$3: ${picture#*/}" "" "$(cmp "$picture" "$2/${picture#*/}" 2>&1)"
    done
    expect "$3: the same files" "$(cd "$1" && find . -type f | sort)" \
        "$(cd "$2" && find . -path ./shares -prune -o -type f -print | sort)"
}
share() {
    "$dapple" overnight night.toml -o "$1" --passes 9 --shard "$2" >printed 2>stderr
}

"$dapple" overnight night.toml -o whole --passes 9 >printed 2>stderr
expect "one run: exit code" 0 $?

"$dapple" overnight night.toml -o dry --passes 9 --shard 3/8 --dry-run >printed 2>stderr
expect "a dry run lists the units of a share" 1 \
    "$(grep -c '^  beam 15, 1, passes 7 to 9$' stderr)"
expect "a dry run makes nothing" "" "$(ls dry 2>/dev/null)"

# Eight shares, in three orders: of the commands, and of the folders that are added.
for number in 1 2 3 4 5 6 7 8; do share night $number/8 || expect "share $number" 0 $?; done
expect "a share writes into its own folder only" shares "$(ls night)"
expect "--status knows the shares" 8 \
    "$("$dapple" overnight -o night --status | grep -c '^share . of 8: \([34]\) of \1 passes$')"
"$dapple" merge night >printed 2>stderr
expect "merging: exit code" 0 $?
expect "merging: what is there now" "night/sheet.pdf night/overnight.json night/table.csv" \
    "$(tr '\n' ' ' <printed | sed 's/ $//')"
same_films whole night "eight shares"
for order in "8 7 6 5 4 3 2 1" "5 1 7 2 8 3 6 4"; do
    folders=
    for number in $order; do folders="$folders night/shares/$number-of-8"; done
    # shellcheck disable=SC2086
    "$dapple" merge $folders -o "order" >printed 2>stderr
    expect "merging $order: exit code" 0 $?
    same_films whole order "$order"
    rm -r order
done
"$dapple" merge night >printed 2>stderr
expect "merging again: exit code" 0 $?
same_films whole night "merging again"
"$dapple" overnight night.toml -o night --passes 9 >printed 2>stderr
expect "a night that was merged has nothing left to do" 0 $?
same_films whole night "going on"

# A share that is killed goes on; one that is there twice counts once.
tries=0
while [ $tries -lt 40 ]; do
    tries=$((tries + 1))
    "$dapple" overnight night.toml -o killed --passes 9 --shard 2/2 >printed 2>stderr &
    program=$!
    if [ $tries -lt 6 ]; then
        sleep "0.$((tries * 53 % 90 + 10))"
        kill -KILL $program 2>/dev/null
    fi
    wait $program && break
done
share killed 1/2
"$dapple" merge killed killed -o twice >printed 2>stderr
expect "shares that are there twice: exit code" 0 $?
expect "shares that are there twice: it is told" 4 "$(grep -c 'is left out; .* has its passes' stderr)"
same_films whole twice "twice"

# What is missing is told, and everything is made of the rest.
rm -r killed/shares/1-of-2
"$dapple" merge killed >printed 2>stderr
expect "a share is missing: exit code" 3 $?
expect "a share is missing: it is told" 2 \
    "$(grep -c -e '^beam 15, 1: passes 1 to 9 of 9 are missing$' \
        -e '^beam 20, 1: passes 1 to 4 of 9 are missing$' stderr)"
"$dapple" overnight night.toml -o killed --passes 9 >printed 2>stderr
expect "the rest is made: exit code" 0 $?
same_films whole killed "the rest is made"
head -c 3000 night/shares/3-of-8/beam-15-1/set.passes >short
mv short night/shares/3-of-8/beam-15-1/set.passes
"$dapple" merge night -o damaged >printed 2>stderr
expect "a damaged part: exit code" 3 $?
expect "a damaged part: it is told" 1 "$(grep -c 'is damaged and left out' stderr)"
expect "a damaged part: its passes are missing" 1 \
    "$(grep -c '^beam 15, 1: passes 7 to 9 of 9 are missing$' stderr)"

# Films by themselves, and what does not belong together.
refused() {
    claim=$1 line=$2
    shift 2
    "$dapple" "$@" >printed 2>stderr
    expect "$claim: exit code" 2 $?
    expect "$claim: the line" "$line" "$(tail -1 stderr)"
}
film() { echo "night/shares/$1-of-8/beam-20-1/set.passes"; }
"$dapple" merge "$(film 6)" "$(film 4)" -o films >printed 2>stderr
expect "films with a gap: exit code" 3 $?
expect "films with a gap: it is told" "passes 1, 5 to 7 are missing" "$(tail -1 stderr)"
"$dapple" merge "$(film 5)" films/set.passes "$(film 3)" -o films >printed 2>stderr
expect "the gap is filled" "films/set.passes: passes 1 to 9" "$(cat printed)"
expect "films by themselves: the same bits" "" \
    "$(cmp films/set.passes whole/beam-20-1/set.passes 2>&1)"
refused "films of two sets" \
    "$(film 5): holds passes of another set, size, seed or version than night/shares/1-of-8/beam-15-1/set.passes; only parts of one film can be added" \
    merge "$(film 5)" night/shares/1-of-8/beam-15-1/set.passes -o none
share other 4/7
refused "films with some passes in common" \
    "$(film 5): holds passes 5 to 7, and other/shares/4-of-7/beam-20-1/set.passes holds passes 3 to 6: some are the same; only whole parts can be left out" \
    merge "$(film 5)" other/shares/4-of-7/beam-20-1/set.passes -o none
expect "nothing was written" "" "$(ls none 2>/dev/null)"
"$dapple" overnight night.toml -o seeds --passes 9 --seed 2 --shard 1/2 >printed 2>stderr
refused "shares of two seeds" \
    "seeds/shares/1-of-2: was made with another --seed or --width than night/shares/1-of-8; only shares of one night can be added" \
    merge night seeds -o none
refused "shares with other passes" \
    "night/shares/2-of-8/beam-15-1/set.passes: holds passes 4 to 6, and this share makes passes 5 to 8: the night was shared out with another --passes; give another folder, or --restart" \
    overnight night.toml -o night --passes 11 --shard 2/8
sed -i 's/800/900/' sets/set.toml
"$dapple" merge night -o none >printed 2>stderr
expect "an edited set: exit code" 2 $?
expect "an edited set: it is told" 1 \
    "$(grep -c 'holds passes of another set, model, kit, size or seed than .*night.toml now says' stderr)"
refused "a share that is none" \
    'dapple: --shard: is "9/8"; must be a share such as 3/8: the third of eight; see dapple --help' \
    overnight night.toml -o none --passes 9 --shard 9/8
refused "a share of a night without passes" \
    'dapple: --shard: needs --passes: the passes that are shared out; see dapple --help' \
    overnight night.toml -o none --hours 1 --shard 1/8
refused "a share to a noise" \
    'dapple: --shard: cannot go with --noise: a share does not know the noise of all; give --passes; see dapple --help' \
    overnight night.toml -o none --noise 3 --shard 1/8
refused "a folder without shares" \
    'sets: has no shares of a night; dapple overnight --shard makes them' merge sets

exit $((failures > 0))
