#include "base/large_memory.h"

#include <sys/mman.h>

#include <cstdint>

namespace dapple {

namespace {

constexpr uintptr_t kLargePage = uintptr_t{2} << 20U;  // bytes

}  // namespace

void use_large_pages(void* data, size_t bytes) {
    const auto first = (reinterpret_cast<uintptr_t>(data) + kLargePage - 1) & ~(kLargePage - 1);
    const auto last = (reinterpret_cast<uintptr_t>(data) + bytes) & ~(kLargePage - 1);
    if (first >= last) return;
#ifdef MADV_HUGEPAGE
    ::madvise(reinterpret_cast<void*>(first), last - first, MADV_HUGEPAGE);
#endif
}

}  // namespace dapple
