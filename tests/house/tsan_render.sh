#!/bin/sh
# One small render under ThreadSanitizer: reading, building, walks, film and clean frame, with more
# threads than most machines have cores. A planted race must be reported first.
#
# There are no suppressions. oneTBB is not instrumented; renderer/base/parallel.cpp reports its
# synchronisation to the sanitizer. Embree builds its trees on oneTBB and is not instrumented
# either: the sanitizer would see its calls of free and memmove but not their order. The option
# below ignores such calls from uninstrumented libraries. Calls from our code are still checked.
set -eu
cd "$(dirname "$0")/../.."
. tests/house/expect.sh

export TSAN_OPTIONS=ignore_noninstrumented_modules=1

tools/build tsan --target small_render planted_race

# The sanitizer's memory layout does not work with high-entropy address randomisation.
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
$run build/tsan/tests/house/small_render scenes/jar-and-wall/jar-and-wall.toml \
    >"$work/render" 2>&1 || code=$?
if [ "$code" -ne 0 ]; then
    cat "$work/render"
    exit 1
fi
echo "ThreadSanitizer: the planted race was reported, the render is clean."
