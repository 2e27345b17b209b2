#!/bin/sh
# A night on a cluster of two nodes, with real daemons on this machine, in which one node is lost
# while it renders: the films are those of one undisturbed run, to the bit.
#
#   slurm_test.sh DAPPLE [VARIANTS PASSES WIDTH]     the boathouse's variants, small, when left out
set -u
tests=$(cd "$(dirname "$0")/.." && pwd)
variants=${2:-$tests/cluster/boathouse_night.toml}
case $variants in /*) ;; *) variants=$PWD/$variants ;; esac
passes=${3:-8}
width=${4:-48}
. "$tests/dapple/program.sh"
. "$tests/cluster/slurm.sh"
submit=$tests/../tools/cluster/submit

if ! has_slurm; then
    echo "skipped: no slurmd, slurmctld or munged; tools/prepare --tests installs them"
    exit 77
fi
trap 'stop_slurm; rm -rf "$work"' EXIT
trap 'exit 1' INT TERM
if ! start_slurm "$work/slurm" 2; then
    echo "skipped: the daemons do not start here:"
    tail -n 3 "$work"/slurm/*.log "$work"/slurm/*.out
    exit 77
fi
sinfo

# waits SECONDS COMMAND…: until the command succeeds.
waits() {
    left=$(($1 * 4))
    shift
    until "$@"; do
        left=$((left - 1))
        [ $left -gt 0 ] || return 1
        sleep 0.25
    done
}
is_idle() { [ -z "$(squeue --noheader)" ]; }
# Slurm lets a task of a lost node wait two minutes before it starts again; the test does not.
is_idle_without_waiting() {
    for job in $(squeue --noheader --states=pending --format="%i %r" | sed -n 's/ BeginTime$//p'); do
        scontrol update "JobId=$job" StartTime=now
    done
    is_idle
}
# A task is at work on n2 and has already kept passes.
is_amid_n2() {
    lost_task=$(squeue --noheader --nodelist=n2 --states=running --format=%K)
    [ -n "$lost_task" ] && ls "night/shares/$lost_task-of-4"/*/*.passes >/dev/null 2>&1
}

"$submit" "$variants" -o night --shares 4 --passes "$passes" --width "$width" --dapple "$dapple" \
    >submitted 2>stderr
expect "submitting: exit code" 0 $?
cat submitted stderr
waits 300 is_amid_n2
expect "a task had kept passes on n2" 0 $?
echo "n2 is lost while it renders share $lost_task, after:"
grep -h -A 2 '"first_pass"' "night/shares/$lost_task-of-4/share.json"
lose_node n2
waits 600 is_idle_without_waiting
expect "all jobs have ended" "" "$(squeue --noheader)"
sinfo
cat night/shares/log/*.log

expect "its task was started again, on the other node" 1 \
    "$(grep -c 'on n1, start 2' "night/shares/log/$lost_task.log")"
expect "the shares are whole" 4 \
    "$("$dapple" overnight --status -o night | grep -c '^share .*: \([0-9]*\) of \1 passes$')"
"$dapple" overnight "$variants" -o whole --passes "$passes" --width "$width" >printed 2>stderr
expect "one undisturbed run: exit code" 0 $?
count=0
for film in whole/*/*.passes; do
    count=$((count + 1))
    expect "$film: the same bits" "" "$(cmp "$film" "night/${film#whole/}" 2>&1)"
done
expect "films were compared" yes "$([ $count -gt 1 ] && echo yes)"
expect "the same files" "$(cd whole && ls)" "$(cd night && ls | grep -v '^shares$')"
expect "the same table" "" "$(cmp whole/table.csv night/table.csv 2>&1)"

exit $((failures > 0))
