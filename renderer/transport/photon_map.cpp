#include "transport/photon_map.h"

namespace dapple {

uint32_t PhotonGrid::bucket_of(const glm::ivec3& cell) const {
    return hash_cell(cell) & mask_;
}

void PhotonGrid::build(PhotonList photons, float radius) {
    photons_ = std::move(photons);
    radius_ = radius;
    cells_.per_cell = 0.5F / radius;
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

PhotonMap make_photon_map(std::vector<PhotonList> blocks, float radius) {
    size_t caustic = 0;
    size_t all = 0;
    for (const PhotonList& block : blocks) {
        for (const Photon& photon : block) caustic += photon.caustic ? 1 : 0;
        all += block.size();
    }
    PhotonList caustics;
    PhotonList others;
    caustics.reserve(caustic);
    others.reserve(all - caustic);
    for (PhotonList& block : blocks) {
        for (const Photon& photon : block) {
            (photon.caustic ? caustics : others).push_back(photon);
        }
        PhotonList().swap(block);  // no photon is held twice for long
    }
    PhotonMap map;
    map.radius = radius;
    map.caustic.build(std::move(caustics), radius);
    map.other.build(std::move(others), radius);
    return map;
}

}  // namespace dapple
