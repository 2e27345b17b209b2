#!/bin/sh
# The memory of dapple overnight: it does not grow with the number of variants, and the estimate is
# near the measured peak on three sets that are unlike each other.
set -u
. "$(dirname "$0")/program.sh"
command -v python3 >/dev/null || exit 77

# peak_mb ARGUMENTS: runs the program and prints the peak of its memory.
peak_mb() {
    python3 -c 'import resource, subprocess, sys
code = subprocess.call(sys.argv[1:], stdout=subprocess.DEVNULL, stderr=open("stderr", "w"))
print(resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss // 1024 if code == 0 else "failed")' \
        "$dapple" "$@"
}

# ---- The number of variants -----------------------------------------------------------------------

write_set set.toml 's/frame_px.*/frame_px = [120, 80]/'
variants() {
    printf 'set = "set.toml"\n[vary]\n"fixture.key.beam_angle_deg" = { from = 10, to = 30, steps = %d }\n"fixture.key.dimmer" = [1, 0.5]\n' "$1"
}
variants 20 >few.toml
variants 40 >many.toml
few=$(peak_mb overnight few.toml -o few --passes 1 --threads 1)
many=$(peak_mb overnight many.toml -o many --passes 1 --threads 1)
# Forty films more are 65 MB, as many pictures 16 MB. Both sheets have several pages.
expect "80 variants take no more memory than 40: $few MB, $many MB" 1 $((many < few + 8))

# ---- The estimate ---------------------------------------------------------------------------------

estimate() {
    cat >"$1.toml" <<END_NIGHT
set = "$scenes/$2.toml"
[vary]
"camera.shutter_s" = [0.01]
END_NIGHT
    measured=$(peak_mb overnight "$1.toml" -o "$1" --width "$3" --passes 3 --threads 2)
    estimated=$(sed -n 's/.* about \([0-9.]*\) GB of memory.*/\1/p' stderr)
    # 0.1 GB is the last digit.
    expect "$1: $estimated GB estimated, $measured MB measured" 1 "$(awk \
        "BEGIN { print ($measured < 1000 * $estimated + 100) && (1000 * $estimated < 1.5 * $measured + 100) }")"
}
estimate jar jar-and-wall/jar-and-wall 480
estimate boathouse boathouse/boathouse 240
estimate many-lamps bench/twenty-five 240

exit $((failures > 0))
