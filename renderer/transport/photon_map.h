// Photons: the vertices of a pass's light walks, kept so that camera walks can gather them where
// light walks cannot be joined to the lens: in mirrors, through glass, in glossy floors (E64).
//
// A hashed grid over one pass (cells of two radii, counting sort). The order of the photons is that
// of the blocks of light walks they were made in, so sums over them are the same on any number of
// threads.
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

// One line of the cache: a pass keeps hundreds of thousands.
struct alignas(64) Photon {
    PackedSpectrum flux;  // lm per unit of the fixture's group spectra
    Point position{0};
    PackedNormal direction;  // back to where the light came from
    float joinable = 0;      // of its walk's weights (E45)
    float reversed = 0;
    float shiny = 0;
    MaterialId material = kNoMaterial;
    int16_t fixture = 0;
    std::array<int8_t, 3> normal{};  // geometric, in steps of a 127th
};
static_assert(sizeof(Photon) == 64);

using PhotonList = std::vector<Photon>;

class PhotonMap {
  public:
    // `blocks`: the photons of a pass, in the order in which light walks are traced; `radius`, m,
    // within which they are gathered.
    PhotonMap(std::vector<PhotonList> blocks, float radius);
    PhotonMap(PhotonMap&&) = default;
    PhotonMap& operator=(PhotonMap&&) = default;

    float radius() const { return radius_; }
    // Calls visit(photon, distance²) for the photons within the radius of `at`.
    template <class Visit>
    void gather(const Point& at, const Visit& visit) const;

    size_t bytes() const {
        return order_.size() * (sizeof(Photon) + sizeof(const Photon*)) +
               first_.size() * sizeof(uint32_t);
    }

  private:
    uint32_t bucket_of(const glm::ivec3& cell) const;

    std::vector<PhotonList> blocks_;
    std::vector<uint32_t> first_;       // of each bucket, one more at the end
    std::vector<const Photon*> order_;  // by bucket
    float radius_;
    Cells cells_;
    uint32_t mask_ = 0;
};

template <class Visit>
void PhotonMap::gather(const Point& at, const Visit& visit) const {
    if (order_.empty()) return;
    // A ball of one radius meets at most two cells of two radii along each axis.
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
                // Cells that share a bucket are looked at once.
                const uint32_t bucket = bucket_of({x, y, z});
                bool again = false;
                for (size_t i = 0; i < count; ++i) again = again || buckets[i].number == bucket;
                if (again || count == buckets.size()) continue;
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
