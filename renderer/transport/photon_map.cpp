#include "transport/photon_map.h"

namespace dapple {

PhotonMap::PhotonMap(std::vector<PhotonList> blocks, float radius) : radius_(radius) {
    size_t all = 0;
    for (const PhotonList& block : blocks) all += block.size();
    if (all == 0) return;
    photons_.reserve(all);
    for (PhotonList& block : blocks) {
        photons_.insert(photons_.end(), block.begin(), block.end());
        PhotonList().swap(block);  // no photon is held twice for long
    }
    cells_.per_cell = 0.5F / radius;
    sort();
}

uint32_t PhotonMap::bucket_of(const glm::ivec3& cell) const {
    return hash_cell(cell) & mask_;
}

void PhotonMap::sort() {
    uint32_t buckets = 1;
    while (buckets < photons_.size()) buckets *= 2;
    mask_ = buckets - 1;
    first_.assign(buckets + 1, 0);
    std::vector<uint32_t> bucket(photons_.size());
    for (size_t i = 0; i < photons_.size(); ++i) {
        bucket[i] = bucket_of(cells_.at(photons_[i].position));
        ++first_[bucket[i] + 1];
    }
    for (size_t b = 0; b < buckets; ++b) first_[b + 1] += first_[b];
    std::vector<uint32_t> next(first_.begin(), first_.end() - 1);
    order_.resize(photons_.size());
    for (size_t i = 0; i < photons_.size(); ++i) {
        order_[next[bucket[i]]++] = static_cast<uint32_t>(i);
    }
}

}  // namespace dapple
