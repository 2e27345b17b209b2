#include "base/kept_parts.h"

#include <array>
#include <fstream>
#include <mutex>
#include <unordered_map>
#include <vector>

#include "base/random.h"

namespace dapple {

namespace {

struct PartShelf {
    std::mutex mutex;
    size_t most_bytes = 0;  // 0: nothing is kept
    size_t bytes = 0;
    std::unordered_map<std::string, std::shared_ptr<const void>> parts;
};

PartShelf& shelf() {
    static PartShelf the_shelf;
    return the_shelf;
}

}  // namespace

KeepParts::KeepParts(size_t most_bytes) {
    const std::lock_guard lock(shelf().mutex);
    shelf().most_bytes = most_bytes;
}

KeepParts::~KeepParts() {
    const std::lock_guard lock(shelf().mutex);
    shelf().parts.clear();
    shelf().most_bytes = shelf().bytes = 0;
}

bool keeps_parts() {
    const std::lock_guard lock(shelf().mutex);
    return shelf().most_bytes > 0;
}

std::shared_ptr<const void> find_part(const std::string& key) {
    const std::lock_guard lock(shelf().mutex);
    const auto found = shelf().parts.find(key);
    return found == shelf().parts.end() ? nullptr : found->second;
}

void keep_part(const std::string& key, std::shared_ptr<const void> part, size_t bytes) {
    const std::lock_guard lock(shelf().mutex);
    if (shelf().bytes + bytes > shelf().most_bytes) return;
    if (shelf().parts.emplace(key, std::move(part)).second) shelf().bytes += bytes;
}

std::string content_key(const std::string& path) {
    if (!keeps_parts()) return "";
    std::ifstream file(path, std::ios::binary);
    if (!file) return "";
    std::array<uint64_t, 2> hash{1, 2};
    uint64_t size = 0;
    std::vector<char> block(size_t{1} << 16U);
    while (file) {
        file.read(block.data(), static_cast<std::streamsize>(block.size()));
        const auto got = static_cast<size_t>(file.gcount());
        const uint64_t sum = std::hash<std::string_view>()({block.data(), got});
        hash[0] = mix_bits(hash[0], sum);
        hash[1] = mix_bits(hash[1] ^ sum, got);
        size += got;
    }
    std::string key;
    add_to_key(key, hash);
    add_to_key(key, size);
    return key;
}

}  // namespace dapple
