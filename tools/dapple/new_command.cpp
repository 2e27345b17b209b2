// dapple new TITLE: a first set file, from a few questions or from options.
#include <poll.h>
#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <iostream>
#include <sstream>

#include "base/problems.h"
#include "base/written_number.h"
#include "base/written_size.h"
#include "commands.h"
#include "new/starter_set.h"
#include "output/safe_file.h"

namespace dapple {

namespace {

struct NewArguments {
    std::string title;
    std::string folder = ".";
    std::string room, camera, lens, figure;  // as written
};

std::optional<double> metres_in(const std::string& text) {
    return number_in_words(text, quantity_of("height_m"));
}

bool read_size(const std::string& text, StarterRoom& room) {
    const auto sides = size_in_words(text, 3);
    if (!sides) return false;
    room.width = (*sides)[0];
    room.depth = (*sides)[1];
    room.height = (*sides)[2];
    return true;
}

bool read_distance(const std::string& text, StarterRoom& room) {
    const auto distance = metres_in(text);
    if (distance) room.distance = *distance;
    return distance.has_value();
}

bool read_lens(const std::string& text, StarterRoom& room) {
    const auto lens = number_in_words(text, quantity_of("focal_length_mm"));
    if (lens) room.lens_mm = *lens;
    return lens.has_value();
}

bool read_figure(const std::string& text, StarterRoom& room) {
    if (text == "none" || text == "no") {
        room.figure.reset();
        return true;
    }
    std::string height;
    std::istringstream words(text);
    for (std::string word; words >> word;) {
        while (!word.empty() && word.back() == ',') word.pop_back();
        const bool is_seated = word == "seated" || word == "sitting";
        room.is_seated = room.is_seated || is_seated;
        if (!is_seated && word != "standing") height += word + " ";
    }
    if (height.empty()) return !text.empty();
    const auto metres = metres_in(height);
    if (metres) room.figure = *metres;
    return metres.has_value();
}

struct Question {
    const char* option;
    std::string NewArguments::*answer;
    bool (*read)(const std::string&, StarterRoom&);
    const char* text;
    const char* allowed;
};

constexpr Question kQuestions[] = {
    {"--room",
     &NewArguments::room,
     read_size,
     "How large is the room: width x length x height? [5 x 7 x 3 m]",
     "three lengths such as \"8 x 12 x 4 m\", \"8 12 4\" or \"26 x 40 x 12 ft\""},
    {"--camera",
     &NewArguments::camera,
     read_distance,
     "How far is the camera from what it looks at? [3 m]",
     "a length such as \"3 m\" or \"10 ft\""},
    {"--lens",
     &NewArguments::lens,
     read_lens,
     "Which focal length, on a full frame? [50 mm]",
     "a length such as 50 or \"50 mm\""},
    {"--figure",
     &NewArguments::figure,
     read_figure,
     "How tall is the figure, standing or seated, or none? [1.70 m standing]",
     "a length such as \"1.70 m\" or \"5'7\\\"\", \"seated\", \"1.70 m seated\", or none"}};

// Asks until the answer can be read. An empty answer takes what stands in brackets.
void ask(const Question& question, StarterRoom& room) {
    std::string answer;
    while (true) {
        std::cerr << question.text << ' ' << std::flush;
        if (!std::getline(std::cin, answer) || answer.empty()) return;
        if (question.read(answer, room)) return;
        std::cerr << "must be " << question.allowed << '\n';
    }
}

// Whether answers come through a pipe or from a file. An open pipe may never bring any, so the
// first one has some seconds to come.
bool has_piped_answers() {
    struct stat input {};
    if (::fstat(STDIN_FILENO, &input) != 0) return false;
    if (S_ISREG(input.st_mode)) return true;
    if (!S_ISFIFO(input.st_mode)) return false;
    constexpr int kPatienceMs = 5000;
    pollfd wait{STDIN_FILENO, POLLIN, 0};
    return ::poll(&wait, 1, kPatienceMs) == 1;
}

std::string wrong_answer(const std::string& whose,
                         const std::string& given,
                         const Question& question) {
    return whose + ": is \"" + given + "\"; must be " + question.allowed;
}

// One line for each question, in their order; an empty line, or none, takes what stands in
// brackets. Returns the problem.
std::string read_lines(StarterRoom& room) {
    int line = 0;
    std::string answer;
    for (const Question& question : kQuestions) {
        ++line;
        if (!std::getline(std::cin, answer)) break;
        if (answer.ends_with('\r')) answer.pop_back();
        if (answer.empty() || question.read(answer, room)) continue;
        return wrong_answer("answer " + std::to_string(line), answer, question);
    }
    return "";
}

// Returns the problem; "" if all answers could be read.
std::string read_answers(const NewArguments& arguments, StarterRoom& room) {
    const bool has_option = !arguments.room.empty() || !arguments.camera.empty() ||
                            !arguments.lens.empty() || !arguments.figure.empty();
    const bool has_input = !has_option && ::isatty(STDIN_FILENO) == 0;
    const bool asks = !has_option && !has_input && ::isatty(STDERR_FILENO) != 0;
    if (has_input && has_piped_answers()) return read_lines(room);
    if (has_input) {
        std::cerr << "Nobody to ask, so this is the usual room; give --room, --camera, --lens and "
                     "--figure, or pipe one answer a line.\n";
    }
    for (const Question& question : kQuestions) {
        const std::string& given = arguments.*question.answer;
        if (asks) ask(question, room);
        if (given.empty() || question.read(given, room)) continue;
        return wrong_answer(question.option, given, question);
    }
    return "";
}

int refuse(const std::string& why) {
    std::cerr << "dapple: " << why << '\n';
    return kBadInput;
}

int run_new(const NewArguments& arguments) {
    StarterRoom room;
    room.title = arguments.title;
    const std::string path =
        (std::filesystem::path(arguments.folder) / (file_stem_for(room.title) + ".toml"))
            .lexically_normal()
            .string();
    if (std::filesystem::exists(path)) {
        throw FileError(path, "is there already; choose another title, or another folder with -o");
    }
    std::string problem = read_answers(arguments, room);
    if (problem.empty()) {
        // A small room has a place for the camera too.
        if (arguments.camera.empty()) room.distance = std::min(room.distance, 0.6 * room.depth);
        problem = starter_problem(room);
    }
    if (!problem.empty()) return refuse(problem);
    check_writable_folder(arguments.folder);
    write_text(path, starter_set_text(room));
    std::cout << path << '\n';
    std::cerr << "Render it: dapple render " << path << " -o out\n";
    return kDone;
}

}  // namespace

void add_new_command(CLI::App& app, int& exit_code) {
    const auto arguments = std::make_shared<NewArguments>();
    CLI::App& command = *app.add_subcommand(
        "new", "A first set file for your room, from a few questions or from options");
    command.add_option("TITLE", arguments->title, "What the set is called")->required();
    command.add_option("-o,--output", arguments->folder, "Folder for the set file");
    command.add_option("--room", arguments->room, "Width x length x height: \"8 x 12 x 4 m\"");
    command.add_option(
        "--camera", arguments->camera, "From the camera to what it looks at: \"3 m\"");
    command.add_option("--lens", arguments->lens, "Focal length on a full frame: 50");
    command.add_option("--figure",
                       arguments->figure,
                       "Height of the lay figure, \"seated\", \"1.70 m seated\", or none");
    command.callback([arguments, &exit_code] { exit_code = run_new(*arguments); });
}

}  // namespace dapple
