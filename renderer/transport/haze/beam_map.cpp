#include "transport/haze/beam_map.h"

#include <algorithm>
#include <bit>
#include <cmath>

namespace dapple {

namespace {

constexpr float kPieceLength = 0.4F;  // m
constexpr float kMostPieces = 48;     // of a beam; a longer one has longer pieces
constexpr float kDeepest = 9;         // optical depth at which a beam ends: e^-9 of its light
constexpr uint32_t kPiecesPerLeaf = 4;
constexpr float kAlongLeg = 0.1F;  // sine below which a beam runs along the leg

}  // namespace

BeamMap::BeamMap(const std::vector<BeamList>& blocks,
                 const HazeMedium& haze,
                 float radius,
                 uint32_t one_of)
    : radius_(radius), stand_for_(static_cast<float>(one_of)) {
    // A random one of every group: parts of one walk's spectrum follow each other.
    uint64_t number = 0;
    uint64_t taken = 0;
    for (const BeamList& block : blocks) {
        for (const Beam& beam : block) {
            const uint64_t in_group = number % one_of;
            if (in_group == 0) {
                taken = mix_bits(number, std::bit_cast<uint32_t>(beam.direction.x)) % one_of;
            }
            if (in_group == taken) beams_.push_back(beam);
            ++number;
        }
    }
    for (uint32_t b = 0; b < beams_.size(); ++b) cut(b, haze);
    if (pieces_.empty()) return;
    nodes_.reserve(pieces_.size());
    build(0, static_cast<uint32_t>(pieces_.size()));
}

void BeamMap::cut(uint32_t beam, const HazeMedium& haze) {
    const Beam& b = beams_[beam];
    const HazeWay way = haze.way(b.origin, b.direction, b.length);
    if (!(way.first() < way.last())) return;
    const float last = way.depth(way.last()) > kDeepest ? way.at_depth(kDeepest) : way.last();
    const float count =
        std::clamp(std::ceil((last - way.first()) / kPieceLength), 1.0F, kMostPieces);
    const float length = (last - way.first()) / count;
    Piece piece;
    piece.beam = beam;
    piece.to = way.first();
    piece.depth_to = way.depth(piece.to);
    for (int i = 0; i < static_cast<int>(count); ++i) {
        piece.from = piece.to;
        piece.to = piece.from + length;
        piece.depth_from = piece.depth_to;
        piece.depth_to = way.depth(piece.to);
        const uint64_t bits = mix_bits(pieces_.size(), static_cast<uint64_t>(beams_.size()));
        const float u = static_cast<float>(bits >> 40U) * 0x1p-24F;
        piece.point = piece.from + u * length;
        pieces_.push_back(piece);
    }
}

Bounds BeamMap::box_of(const Piece& piece) const {
    const Beam& beam = beams_[piece.beam];
    Bounds box;
    box.add(beam.origin + piece.from * beam.direction);
    box.add(beam.origin + piece.to * beam.direction);
    box.low -= Vec3(radius_);
    box.high += Vec3(radius_);
    return box;
}

uint32_t BeamMap::build(uint32_t first, uint32_t last) {
    const auto self = static_cast<uint32_t>(nodes_.size());
    nodes_.emplace_back();
    Node node;
    Bounds middles;
    for (uint32_t i = first; i < last; ++i) {
        const Bounds box = box_of(pieces_[i]);
        node.box.add(box);
        middles.add(box.centre());
    }
    const Vec3 extent = middles.high - middles.low;
    const int axis =
        extent.x > extent.y ? (extent.x > extent.z ? 0 : 2) : (extent.y > extent.z ? 1 : 2);
    if (last - first <= kPiecesPerLeaf || !(extent[axis] > 0)) {
        node.first = first;
        node.count = last - first;
        nodes_[self] = node;
        return self;
    }
    const auto key = [&](const Piece& piece) {
        const Beam& beam = beams_[piece.beam];
        return beam.origin[axis] + 0.5F * (piece.from + piece.to) * beam.direction[axis];
    };
    const uint32_t half = first + (last - first) / 2;
    const auto at = [&](uint32_t i) { return pieces_.begin() + static_cast<std::ptrdiff_t>(i); };
    std::nth_element(at(first), at(half), at(last), [&](const Piece& a, const Piece& b) {
        return key(a) < key(b);
    });
    build(first, half);
    node.first = build(half, last);
    nodes_[self] = node;
    return self;
}

bool BeamMap::meets(const Piece& piece,
                    const Point& origin,
                    const Direction& direction,
                    float length,
                    BeamMeeting& meeting) const {
    const Beam& beam = beams_[piece.beam];
    const Vec3 apart = beam.origin - origin;
    const float cos_lines = glm::dot(direction, beam.direction);
    const float sin2 = std::max(0.0F, 1.0F - cos_lines * cos_lines);
    const float on_leg = glm::dot(apart, direction);
    float at_beam = piece.point;
    float kernel = 0;
    if (sin2 >= square(kAlongLeg)) {
        const float on_beam = glm::dot(apart, beam.direction);
        at_beam = (cos_lines * on_leg - on_beam) / sin2;
        if (!(at_beam >= piece.from && at_beam < piece.to)) return false;
        kernel = 0.75F / (radius_ * std::sqrt(sin2));
    } else {
        kernel = 2.0F * (piece.to - piece.from) / (kPiF * square(radius_));
    }
    meeting.at_leg = on_leg + at_beam * cos_lines;
    if (!(meeting.at_leg > 0 && meeting.at_leg < length)) return false;
    const Vec3 between = apart + at_beam * beam.direction - meeting.at_leg * direction;
    const float distance2 = glm::dot(between, between);
    if (!(distance2 < square(radius_))) return false;
    meeting.kernel = stand_for_ * kernel * (1.0F - distance2 / square(radius_));
    const float share = (at_beam - piece.from) / (piece.to - piece.from);
    meeting.transmittance =
        std::exp(-(piece.depth_from + share * (piece.depth_to - piece.depth_from)));
    return true;
}

}  // namespace dapple
