#!/bin/sh
# One small render under ThreadSanitizer: reading, building, walks, film and files,
# with more threads than most machines of ours have cores. First a planted race, which must be seen.
#
# There are no suppressions. What oneTBB, which is not instrumented, does between threads is told
# to the sanitizer in renderer/base/parallel.cpp. Embree builds its trees on oneTBB too; neither is
# instrumented, so all that would be seen of them is a free or a memmove whose order is not. Those
# calls are left out when they come from such a library, and stay in when they come from our code.
set -eu
cd "$(dirname "$0")/../.."
. tests/house/expect.sh

export TSAN_OPTIONS=ignore_noninstrumented_modules=1

tools/build tsan --target dapple planted_race

# The sanitizer's memory layout does not go with high-entropy address randomisation.
run="setarch $(uname -m) -R"
$run true 2>/dev/null || run=

code=0
$run build/tsan/tests/house/planted_race >"$work/race" 2>&1 || code=$?
if [ "$code" -ne 66 ] || ! grep -q 'WARNING: ThreadSanitizer: data race' "$work/race"; then
    cat "$work/race"
    echo "The planted race was not reported (exit code $code, not 66)."
    exit 1
fi

code=0
$run build/tsan/dapple render scenes/jar-and-wall/jar-and-wall.toml -o "$work/out" \
    --width 96 --passes 3 --threads 4 >"$work/render" 2>&1 || code=$?
if [ "$code" -ne 0 ] || [ ! -s "$work/out/jar-and-wall.exr" ]; then
    cat "$work/render"
    exit 1
fi
echo "ThreadSanitizer: planted race seen, render clean."
