#include "transport/photon_map.h"

namespace dapple {

PhotonMap::PhotonMap(std::vector<PhotonList> blocks, float radius)
    : blocks_(std::move(blocks)), radius_(radius) {
    size_t all = 0;
    for (const PhotonList& block : blocks_) all += block.size();
    if (all == 0) return;
    cells_.per_cell = 0.5F / radius;
    uint32_t buckets = 1;
    while (buckets < all) buckets *= 2;
    mask_ = buckets - 1;
    // Photons stay where light walks have put them; a counting sort of where that is.
    std::vector<uint32_t> bucket;
    bucket.reserve(all);
    first_.assign(buckets + 1, 0);
    for (const PhotonList& block : blocks_) {
        for (const Photon& photon : block) {
            bucket.push_back(bucket_of(cells_.at(photon.position)));
            ++first_[bucket.back() + 1];
        }
    }
    for (size_t b = 0; b < buckets; ++b) first_[b + 1] += first_[b];
    std::vector<uint32_t> next(first_.begin(), first_.end() - 1);
    order_.resize(all);
    auto of_photon = bucket.begin();
    for (const PhotonList& block : blocks_) {
        for (const Photon& photon : block) order_[next[*of_photon++]++] = &photon;
    }
}

uint32_t PhotonMap::bucket_of(const glm::ivec3& cell) const {
    return hash_cell(cell) & mask_;
}

}  // namespace dapple
