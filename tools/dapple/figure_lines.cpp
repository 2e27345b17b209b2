#include "figure_lines.h"

#include <array>
#include <cmath>
#include <cstdio>
#include <nlohmann/json.hpp>

#include "scene/boards_and_figures/figure_places.h"
#include "scene/checks.h"

namespace dapple {

namespace {

const char* pose_word(Pose pose) {
    switch (pose) {
        case Pose::kStanding:
            return "standing";
        case Pose::kSeated:
            return "seated";
        case Pose::kArmRaised:
            break;
    }
    return "arm_raised";
}

double to_cm(float metres) {
    return std::round(100.0 * static_cast<double>(metres)) / 100 + 0.0;
}

std::string point_text(const Point& p) {
    return "[" + number_text(to_cm(p.x)) + ", " + number_text(to_cm(p.y)) + ", " +
           number_text(to_cm(p.z)) + "]";
}

std::array<double, 3> figure_point_json(const Point& p) {
    return {to_cm(p.x), to_cm(p.y), to_cm(p.z)};
}

}  // namespace

std::string figure_lines(const Scene& scene) {
    std::string text;
    for (const StandIn& figure : scene.stand_ins) {
        std::array<char, 64> tall{};
        std::snprintf(tall.data(), tall.size(), "%.2f m tall", static_cast<double>(figure.height));
        text += "figure \"" + figure.name + "\": " + pose_word(figure.pose) + ", " + tall.data() +
                "; face at " + point_text(figure_face(figure));
        if (figure.pose == Pose::kSeated) {
            const Point seat = figure_seat(figure);
            text += "; needs a seat " + number_text(100 * to_cm(seat.y - figure.position.y)) +
                    " cm high with its middle at x = " + number_text(to_cm(seat.x)) +
                    ", z = " + number_text(to_cm(seat.z));
        }
        text += "\n";
    }
    return text;
}

nlohmann::json figures_json(const Scene& scene) {
    nlohmann::json list = nlohmann::json::array();
    for (const StandIn& figure : scene.stand_ins) {
        nlohmann::json seat = nullptr;
        if (figure.pose == Pose::kSeated) seat = figure_point_json(figure_seat(figure));
        list.push_back({{"name", figure.name},
                        {"pose", pose_word(figure.pose)},
                        {"height_m", to_cm(figure.height)},
                        {"face", figure_point_json(figure_face(figure))},
                        {"chest", figure_point_json(figure_chest(figure))},
                        {"seat", seat}});
    }
    return list;
}

}  // namespace dapple
