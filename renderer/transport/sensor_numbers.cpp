#include "transport/sensor_numbers.h"

#include "math/sequences.h"
#include "transport/walk.h"

namespace dapple {

namespace {

// Numbers of sets, far above those of the lamps.
constexpr uint32_t kAskSet = 1U << 17U;
constexpr uint32_t kConnectionSet = kAskSet + 1;
constexpr uint32_t kHazeEventSet = kAskSet + 2;
constexpr uint32_t kHazeChoiceSet = kAskSet + 3;
constexpr uint32_t kHazeLampSet = 1U << 18U;  // and one more for each fixture

}  // namespace

std::array<float, 4> SensorNumbers::set(uint32_t number) const {
    return sobol_owen_4d(index_, static_cast<uint32_t>(mix_bits(scramble_, number)));
}

Vec3 SensorNumbers::scatter(int edge) {
    if (edge <= 1) {
        const auto s = set(1);
        return Vec3(s[0], s[1], s[2]);
    }
    return next_three(random);
}

std::array<float, 2> SensorNumbers::ask(int edge) {
    if (edge > 1) {
        const float u = random.next();
        return {u, random.next()};
    }
    const auto s = set(kAskSet);
    return {s[0], s[1]};
}

std::array<float, 2> SensorNumbers::connection() const {
    const auto s = set(kConnectionSet);
    return {s[0], s[1]};
}

std::array<float, 2> SensorNumbers::lamp(int edge, size_t fixture) {
    if (edge > 1) {
        const float u = random.next();
        return {u, random.next()};
    }
    // The receptor uses one half of this set, the first surface the other half.
    const auto s = set(2 + static_cast<uint32_t>(fixture));
    const size_t half = edge == 0 ? 2 : 0;
    return {s[half], s[half + 1]};
}

SheetNumbers SensorNumbers::sheet(int edge, size_t fixture) {
    if (edge > 1) {
        SheetNumbers numbers;
        for (float& u : numbers.point) u = random.next();
        for (float& u : numbers.lamp) u = random.next();
        return numbers;
    }
    constexpr uint32_t kAfterLamps = 1U << 16U;
    const auto number =
        kAfterLamps + 4 * static_cast<uint32_t>(fixture) + 2 * static_cast<uint32_t>(edge);
    const auto a = set(number);
    const auto b = set(number + 1);
    return {{a[0], a[1], a[2]}, {b[0], b[1]}};
}

float SensorNumbers::haze_lamp_choice(int edge) {
    return edge > 1 ? random.next() : set(kHazeChoiceSet)[0];
}

std::array<float, 3> SensorNumbers::haze_lamp(int edge, size_t fixture) {
    if (edge > 1) {
        const Vec3 u = next_three(random);
        return {u.x, u.y, u.z};
    }
    const auto s = set(kHazeLampSet + static_cast<uint32_t>(fixture));
    return {s[0], s[1], s[2]};
}

std::array<float, 4> SensorNumbers::haze_event(int edge) {
    if (edge > 1) {
        const Vec3 u = next_three(random);
        return {u.x, u.y, u.z, random.next()};
    }
    return set(kHazeEventSet);
}

}  // namespace dapple
