// Photons: the vertices of a pass's light walks. Camera walks gather them where light walks cannot
// be joined to the lens: in mirrors, through glass, in glossy floors (E92).
//
// The photons of one pass are in a hashed grid with cells of two radii, made by a counting sort. In
// a cell they are in the order of the blocks of light walks, so sums over them are the same on any
// number of threads.
#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "base/memory_hints.h"
#include "geometry/packed_normal.h"
#include "math/cells.h"
#include "scene/scene.h"
#include "spectrum/packed_spectrum.h"

namespace dapple {

// A photon fills one cache line. A pass keeps hundreds of thousands of photons.
struct alignas(64) Photon {
    PackedSpectrum flux;  // lm per unit of the fixture's group spectra
    Point position{0};
    PackedNormal direction;  // back along the light walk
    float connected = 0;     // κ · join of the light walk (E95)
    float reversed = 0;      // sum of the light walk
    float shiny = 0;         // sum of the light walk
    MaterialId material = kNoMaterial;
    int16_t fixture = 0;
    std::array<int8_t, 3> normal{};  // geometric normal times 127
};
static_assert(sizeof(Photon) == 64);

using PhotonList = std::vector<Photon>;

class PhotonMap {
  public:
    // `blocks`: the photons of a pass, in the order in which light walks are traced. They must
    // outlive the map. `radius`: of the disc in which photons are gathered, m.
    PhotonMap(const std::vector<PhotonList>& blocks, float radius);
    PhotonMap(PhotonMap&&) = default;
    PhotonMap& operator=(PhotonMap&&) = default;

    float radius() const { return radius_; }
    // Calls visit(photon, distance²) for every photon within the radius of `at`.
    template <class Visit>
    void gather(const Point& at, const Visit& visit) const;

    size_t bytes() const {
        return order_.size() * (sizeof(Photon) + sizeof(const Photon*)) +
               first_.size() * sizeof(uint32_t);
    }

  private:
    uint32_t bucket_of(const glm::ivec3& cell) const;

    std::vector<uint32_t> first_;       // into order_, by bucket; one more at the end
    std::vector<const Photon*> order_;  // photons, sorted by bucket
    float radius_;
    Cells cells_;
    uint32_t mask_ = 0;
};

template <class Visit>
void PhotonMap::gather(const Point& at, const Visit& visit) const {
    if (order_.empty()) return;
    // A ball of one radius meets at most two cells, of two radii each, along each axis.
    const glm::ivec3 low = cells_.at(at - Vec3(radius_));
    const glm::ivec3 high = cells_.at(at + Vec3(radius_));
    struct Bucket {
        uint32_t number, begin, end;
    };
    std::array<Bucket, 8> buckets;
    size_t count = 0;
    for (int z = low.z; z <= high.z; ++z) {
        for (int y = low.y; y <= high.y; ++y) {
            for (int x = low.x; x <= high.x; ++x) {
                // A bucket that several cells share is visited once.
                const uint32_t bucket = bucket_of({x, y, z});
                bool is_listed = false;
                for (size_t i = 0; i < count; ++i) {
                    is_listed = is_listed || buckets[i].number == bucket;
                }
                if (is_listed || count == buckets.size()) continue;
                buckets[count++] = {bucket, first_[bucket], first_[bucket + 1]};
            }
        }
    }
    // Photons are far apart in memory, so all of them are prefetched before the first is read.
    for (size_t b = 0; b < count; ++b) {
        for (uint32_t i = buckets[b].begin; i < buckets[b].end; ++i) prefetch_to_read(order_[i]);
    }
    for (size_t b = 0; b < count; ++b) {
        for (uint32_t i = buckets[b].begin; i < buckets[b].end; ++i) {
            const Photon& photon = *order_[i];
            const Vec3 off = photon.position - at;
            const float distance2 = glm::dot(off, off);
            if (distance2 < radius_ * radius_) visit(photon, distance2);
        }
    }
}

}  // namespace dapple
