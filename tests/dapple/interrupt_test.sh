#!/bin/sh
# Ctrl-C keeps the passes done, and --resume continues from them with the same result.
set -u
. "$(dirname "$0")/program.sh"

pixels() {
    iinfo --hash "$1" | grep SHA-1
}
passes_of() {
    sed -n 's/ *"passes": \([0-9]*\),/\1/p' "$1"
}

write_set set.toml
"$dapple" render set.toml -o out --width 240 --passes 1000000 >stdout 2>stderr &
program=$!
wait_for out/set.png $program
expect "the picture is there after the first pass, the other files come at the end" \
    "out/set.png" "$(find out -type f ! -name '.*' ! -name '*.partial')"
kill -INT $program
wait $program
expect "Ctrl-C: stopped early, results kept" 3 $?
expect "Ctrl-C: all results are written, and the passes" "out/set.exr
out/set.mask.png
out/set.passes
out/set.png
out/set.stats.json" "$(find out -type f ! -name '.*' | sort)"
expect "Ctrl-C: the statistics report it" '  "stopped_early": true,' \
    "$(grep stopped_early out/set.stats.json)"
done_passes=$(passes_of out/set.stats.json)
[ "$done_passes" -ge 1 ] || exit 1

more=$((done_passes + 2))
"$dapple" render set.toml -o out --width 240 --passes $more --resume >stdout 2>stderr
expect "--resume: done" 0 $?
expect "--resume: prints where it continues" \
    "continuing after pass $done_passes of out/set.passes" "$(grep continuing stderr)"
expect "--resume: counts the earlier passes" $more "$(passes_of out/set.stats.json)"

"$dapple" render set.toml -o whole --width 240 --passes $more >stdout 2>stderr
expect "an uninterrupted render makes the same pixels" "$(pixels whole/set.exr)" \
    "$(pixels out/set.exr)"
expect "and the same picture" "$(cksum <whole/set.png)" "$(cksum <out/set.png)"

# ---- Stopped in the first pass -------------------------------------------------------------------

"$dapple" render set.toml -o short --width 1500 --seconds 0.01 --resume >stdout 2>stderr
expect "a time limit in the first pass: done" 0 $?
expect "a time limit in the first pass: a draft is the result, and a note says so" \
    "note: stopped before the first pass had a picture; the files hold a draft of 273 x 182 pixels" \
    "$(grep '^note: stopped' stderr)"
expect "a time limit in the first pass: the statistics say so" '    "draft_width_px": 273' \
    "$(grep draft short/set.stats.json)"
expect "a time limit in the first pass: the files, without passes" "short/set.exr
short/set.mask.png
short/set.png
short/set.stats.json" "$(find short -type f | sort)"

"$dapple" render set.toml -o early --width 4000 --passes 1 >stdout 2>stderr &
program=$!
wait_for early/set.png $program
kill -INT $program
wait $program
expect "Ctrl-C in the first pass: stopped early" 3 $?
expect "Ctrl-C in the first pass: a note says so" 1 "$(grep -c '^note: stopped' stderr)"
expect "Ctrl-C in the first pass: the files, without passes" "early/set.exr
early/set.mask.png
early/set.png
early/set.stats.json" "$(find early -type f | sort)"
expect "Ctrl-C in the first pass: the statistics say that it is unfinished" 0 \
    "$(grep -c '"unfinished": null' early/set.stats.json)"

# ---- Passes of another render --------------------------------------------------------------------

cp out/set.passes kept
"$dapple" render set.toml -o out --width 240 --passes 1 --seed 2 --resume >stdout 2>stderr
expect "--resume with another seed: refused" 2 $?
expect "--resume with another seed: one line" \
    "out/set.passes: holds passes of another set, size, seed or version, or the set or a model was \
edited; remove it, or give another folder with -o" "$(grep -v preparing stderr)"
expect "--resume with another seed: nothing is touched" "" "$(cmp out/set.passes kept)"

head -c 100 kept >out/set.passes
"$dapple" render set.toml -o out --width 240 --passes 1 --resume >stdout 2>stderr
expect "a damaged file of passes: done" 0 $?
expect "a damaged file of passes: set aside" "note: out/set.passes: is damaged; it is now \
out/set.passes.damaged, and the passes start anew" "$(grep damaged stderr)"
expect "a damaged file of passes: passes are counted anew" 1 "$(passes_of out/set.stats.json)"

# ---- Two renders into one folder -----------------------------------------------------------------

"$dapple" render set.toml -o out --passes 100000 >stdout 2>stderr &
program=$!
wait_for out/.dapple-lock $program
"$dapple" render set.toml -o out --passes 1 >stdout2 2>stderr2
expect "a second render into the folder: refused" 2 $?
expect "a second render into the folder: says who holds it" 1 \
    "$(grep -c "out: is being written by process $program on " stderr2)"
kill -INT $program
wait $program
expect "the lock goes with the render" "" "$(ls out/.dapple-lock 2>/dev/null)"
"$dapple" render set.toml -o out --passes 1 >stdout 2>stderr
expect "afterwards the folder is free" 0 $?

exit $((failures > 0))
