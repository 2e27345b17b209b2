#include "render/in_frame/find_in_frame.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "base/parallel.h"
#include "render/in_frame/look_through.h"
#include "render/in_frame/move_out.h"

namespace dapple {

namespace {

constexpr int kLookRowsPerBlock = 8;

struct PartPixels {
    int64_t pixels = 0;
    glm::ivec2 low{1 << 30};
    glm::ivec2 high{-1};

    void add(const PartPixels& other) {
        pixels += other.pixels;
        low = glm::min(low, other.low);
        high = glm::max(high, other.high);
    }
};

using SeenParts = std::map<SeenPart, PartPixels>;

// Looks at every pixel and fills in the mask.
SeenParts look_at_frame(const PixelLooker& looker, InFrame& frame) {
    const int blocks = (frame.height + kLookRowsPerBlock - 1) / kLookRowsPerBlock;
    std::vector<SeenParts> of_block(static_cast<size_t>(blocks));
    parallel_blocks(frame.height, kLookRowsPerBlock, [&](int64_t first, int64_t last) {
        SeenParts& parts = of_block[static_cast<size_t>(first / kLookRowsPerBlock)];
        std::vector<SeenPart> seen;
        for (auto y = static_cast<int>(first); y < static_cast<int>(last); ++y) {
            for (int x = 0; x < frame.width; ++x) {
                looker.look(Vec2(x, y) + Vec2(0.5F), seen);
                for (const SeenPart& part : seen) parts[part].add({1, {x, y}, {x, y}});
                const auto pixel = static_cast<size_t>(y) * static_cast<size_t>(frame.width) +
                                   static_cast<size_t>(x);
                frame.mask[pixel] = seen.empty() ? 0.0F : 1.0F;
            }
        }
    });
    SeenParts all;
    for (const SeenParts& parts : of_block) {
        for (const auto& [part, pixels] : parts) all[part].add(pixels);
    }
    return all;
}

// The thing that moves with a part; a room for cables, which are moved by hand.
Thing thing_of(const SeenPart& part) {
    switch (part.kind) {
        case InFrameKind::kFixture:
        case InFrameKind::kHousing:
        case InFrameKind::kStand:
            return {ThingKind::kLamp, part.index};
        case InFrameKind::kGlass:
            return {ThingKind::kGlass, part.index};
        case InFrameKind::kCloth:
        case InFrameKind::kFlag:
        case InFrameKind::kBounce:
            return {ThingKind::kBoard, part.index};
        case InFrameKind::kCable:
            break;
    }
    return {};
}

std::string name_of(const SeenPart& part, const Scene& scene, const std::vector<CableRun>& cables) {
    const auto index = static_cast<size_t>(part.index);
    const auto fixture = [&](size_t i) { return scene.fixtures[i].name; };
    const Thing thing = thing_of(part);
    if (thing.kind == ThingKind::kLamp) return fixture(index);
    if (thing.kind == ThingKind::kGlass) return scene.glasses[index].name;
    if (thing.kind == ThingKind::kBoard) return scene.boards[index].name;
    return fixture(static_cast<size_t>(cables[index].fixture));
}

InFrameThing describe(const SeenPart& part, const PartPixels& pixels, const InFrame& frame) {
    InFrameThing thing;
    thing.kind = part.kind;
    thing.way = part.way;
    thing.pixels = pixels.pixels;
    thing.share = static_cast<double>(pixels.pixels) / (1.0 * frame.width * frame.height);
    thing.box = glm::ivec4(pixels.low, pixels.high + 1);
    thing.touches = {thing.box.x == 0,
                     thing.box.z == frame.width,
                     thing.box.y == 0,
                     thing.box.w == frame.height};
    return thing;
}

}  // namespace

InFrame find_in_frame(const Scene& scene, const World& world) {
    InFrame frame;
    frame.width = scene.camera.width;
    frame.height = scene.camera.height;
    frame.mask.resize(static_cast<size_t>(frame.width) * static_cast<size_t>(frame.height));
    const std::vector<CableRun> cables = find_cables(scene, world);
    const Setup setup(scene, world, false);
    const PixelLooker looker(setup, cables);
    std::map<Thing, MovesOut> moves;
    for (const auto& [part, pixels] : look_at_frame(looker, frame)) {
        InFrameThing thing = describe(part, pixels, frame);
        thing.name = name_of(part, scene, cables);
        const Thing mover = thing_of(part);
        if (part.way == SeenWay::kDirect && mover.kind != ThingKind::kRoom) {
            const auto [known, is_new] = moves.try_emplace(mover);
            if (is_new) known->second = find_moves_out(scene, mover);
            thing.of_thing = known->second.of_thing;
            thing.of_camera = known->second.of_camera;
        }
        frame.things.push_back(std::move(thing));
    }
    std::stable_sort(
        frame.things.begin(), frame.things.end(), [](const InFrameThing& a, const InFrameThing& b) {
            return a.pixels > b.pixels;
        });
    return frame;
}

void rescale(InFrame& frame, int width, int height) {
    const double x = static_cast<double>(width) / frame.width;
    const double y = static_cast<double>(height) / frame.height;
    for (InFrameThing& thing : frame.things) {
        thing.pixels = std::llround(x * y * static_cast<double>(thing.pixels));
        for (int c = 0; c < 4; ++c) {
            thing.box[c] = static_cast<int>(std::lround((c % 2 == 0 ? x : y) * thing.box[c]));
        }
    }
    frame.width = width;
    frame.height = height;
    frame.mask.clear();
}

}  // namespace dapple
