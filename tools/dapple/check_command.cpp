// dapple check SET: reads and checks everything, renders nothing.
#include <algorithm>
#include <cmath>
#include <iostream>
#include <nlohmann/json.hpp>

#include "commands.h"
#include "figure_lines.h"
#include "load_set.h"
#include "output/in_frame_text.h"
#include "render/in_frame/find_in_frame.h"
#include "render/packing/find_cautions.h"
#include "room_line.h"
#include "scene/camera_and_measures/scale_frame.h"
#include "shared_options.h"

namespace dapple {

namespace {

nlohmann::json to_json(const std::vector<Problem>& problems) {
    nlohmann::json list = nlohmann::json::array();
    for (const Problem& p : problems) {
        list.push_back({{"file", p.place.file},
                        {"line", p.place.line},
                        {"column", p.place.column},
                        {"key", p.key},
                        {"message", p.message}});
    }
    return list;
}

nlohmann::json to_json(const Doubts& doubts) {
    nlohmann::json list = nlohmann::json::array();
    for (const Doubt& doubt : doubts) {
        nlohmann::json one = to_json(std::vector{doubt.what}).front();
        one["guess"] = doubt.is_guess;
        list.push_back(std::move(one));
    }
    return list;
}

std::string warnings_text(size_t count) {
    return std::to_string(count) + (count == 1 ? " warning" : " warnings");
}

// "8 fixtures, 1 window, 2 cloths, 1 door": what there is none of is left out.
class Counts {
  public:
    void add(int64_t count, const std::string& one, const std::string& many) {
        if (count == 0) return;
        text_ +=
            (text_.empty() ? "" : ", ") + std::to_string(count) + " " + (count == 1 ? one : many);
    }
    const std::string& text() const { return text_; }

  private:
    std::string text_;
};

std::string contents_text(const LoadedSet& set) {
    const Scene& scene = set.scene;
    const auto size = [](const auto& list) { return static_cast<int64_t>(list.size()); };
    const int64_t windows = std::count_if(
        scene.fixtures.begin(), scene.fixtures.end(), [](const Fixture& f) { return f.is_window; });
    const auto boards = [&](BoardKind kind) {
        return std::count_if(scene.boards.begin(), scene.boards.end(), [&](const Board& board) {
            return board.kind == kind;
        });
    };
    Counts counts;
    counts.add(size(scene.fixtures) - windows, "fixture", "fixtures");
    counts.add(windows, "window", "windows");
    counts.add(size(scene.glasses), "glass", "glasses");
    counts.add(boards(BoardKind::kDiffuser), "cloth", "cloths");
    counts.add(boards(BoardKind::kFlag), "flag", "flags");
    counts.add(boards(BoardKind::kBounce), "bounce", "bounces");
    counts.add(size(scene.stand_ins), "figure", "figures");
    counts.add(boards(BoardKind::kDoor), "door", "doors");
    counts.add(size(scene.columns), "column", "columns");
    counts.add(size(scene.meters), "meter", "meters");
    counts.add(size(scene.regions), "region", "regions");
    counts.add(set.world.triangles(), "triangle", "triangles");
    return counts.text();
}

// Large frames are looked at more coarsely: their pixels would take minutes, and tell no more. The
// scene keeps the coarse frame.
InFrame find_in_large_frame(LoadedSet& set) {
    constexpr double kMostPixels = 2e6;
    const Camera camera = set.scene.camera;
    const double pixels = 1.0 * camera.width * camera.height;
    const double coarser = std::sqrt(pixels / kMostPixels);
    if (coarser <= 1) return find_in_frame(set.scene, set.world);
    scale_frame(set.scene, std::max(1, static_cast<int>(camera.width / coarser)));
    InFrame frame = find_in_frame(set.scene, set.world);
    rescale(frame, camera.width, camera.height);
    return frame;
}

struct CheckArguments {
    std::string set;
    bool json = false;
    bool strict = false;
};

int run_check(const CheckArguments& arguments) {
    Problems problems;
    std::optional<LoadedSet> set = load_set(arguments.set, 0, problems);
    std::optional<InFrame> in_frame;
    Doubts doubts;
    if (set) {
        doubts = doubts_about(*set);
        in_frame = find_in_large_frame(*set);
    }
    if (arguments.json) {
        nlohmann::json report = {{"problems", to_json(problems.all())},
                                 {"notes", to_json(problems.notes())},
                                 {"warnings", to_json(doubts)},
                                 {"in_frame", nullptr}};
        report["model"] = set ? room_json(*set) : nlohmann::json(nullptr);
        report["figures"] = set ? figures_json(set->scene) : nlohmann::json(nullptr);
        if (in_frame) report["in_frame"] = nlohmann::json::parse(in_frame_json_text(*in_frame));
        std::cout << report.dump(2, ' ', false, nlohmann::json::error_handler_t::replace) << '\n';
    } else {
        print_problems(problems);
        print_doubts(doubts, arguments.strict);
    }
    if (!set) return kBadInput;
    if (!arguments.json) {
        std::cout << in_frame_lines(*in_frame) << room_line(*set) << figure_lines(set->scene);
        for (const Caution& caution : find_haze_cautions(set->scene)) {
            std::cout << caution.kind << ": " << caution.what << ": " << caution.advice << '\n';
        }
        std::cout << arguments.set << ": " << contents_text(*set) << "; "
                  << (doubts.empty() ? "nothing wrong" : warnings_text(doubts.size())) << '\n';
    }
    return arguments.strict && !doubts.empty() ? kBadInput : kDone;
}

}  // namespace

void add_check_command(CLI::App& app, int& exit_code) {
    const auto arguments = std::make_shared<CheckArguments>();
    CLI::App& command = *app.add_subcommand("check", "Read and check a set file; render nothing");
    add_set_option(command, arguments->set);
    command.add_flag("--json", arguments->json, "Problems as JSON on standard output");
    add_strict_option(command, arguments->strict);
    command.callback([arguments, &exit_code] { exit_code = run_check(*arguments); });
}

}  // namespace dapple
