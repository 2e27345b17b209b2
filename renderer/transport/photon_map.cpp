#include "transport/photon_map.h"

#include "base/fill_in_steps.h"
#include "base/parallel.h"

namespace dapple {

PhotonMap::PhotonMap(const std::vector<PhotonList>& blocks, float radius) : radius_(radius) {
    size_t photons = 0;
    for (const PhotonList& block : blocks) photons += block.size();
    if (photons == 0) return;
    cells_.per_cell = 0.5F / radius;
    uint32_t buckets = 1;
    while (buckets < photons) buckets *= 2;
    mask_ = buckets - 1;
    // A counting sort of pointers by bucket. The photons themselves are not moved.
    std::vector<uint32_t> bucket_of_photon;
    reserve_large(bucket_of_photon, photons);
    grow_in_steps(first_, buckets + 1);
    for (const PhotonList& block : blocks) {
        stop_if_asked();
        for (const Photon& photon : block) {
            bucket_of_photon.push_back(bucket_of(cells_.at(photon.position)));
            ++first_[bucket_of_photon.back() + 1];
        }
    }
    for (size_t b = 0; b < buckets; ++b) first_[b + 1] += first_[b];
    stop_if_asked();
    std::vector<uint32_t> next(first_.begin(), first_.end() - 1);
    stop_if_asked();
    grow_in_steps(order_, photons);
    auto bucket = bucket_of_photon.begin();
    for (const PhotonList& block : blocks) {
        stop_if_asked();
        for (const Photon& photon : block) order_[next[*bucket++]++] = &photon;
    }
}

uint32_t PhotonMap::bucket_of(const glm::ivec3& cell) const {
    return hash_cell(cell) & mask_;
}

}  // namespace dapple
