// dapple balance FILM.exr TARGET…: the dimmers that give the wanted light.
#include <algorithm>
#include <cmath>
#include <fstream>
#include <iostream>
#include <iterator>
#include <map>

#include "commands.h"
#include "film_path.h"
#include "load_set.h"
#include "output/balance_text.h"
#include "output/read_exr.h"
#include "output/safe_file.h"
#include "rebalance/rebalance.h"
#include "rebalance/settings.h"
#include "rebalance/why_missed.h"
#include "set/change_dimmers.h"

namespace dapple {

namespace {

struct BalanceArguments {
    std::string film;
    std::vector<std::string> targets;
    std::vector<std::string> kept;
    std::string set;
    bool json = false;
};

// What is solved.
struct Task {
    std::vector<Target> targets;
    std::vector<size_t> kept;
};

Task read_task(const BalanceArguments& arguments, const FilmRecord& film, Problems& problems) {
    Task task;
    for (const std::string& name : arguments.kept) {
        const auto f = find_fixture(film, name, "--keep", problems);
        if (f) task.kept.push_back(*f);
    }
    for (const std::string& text : arguments.targets) {
        const auto target = parse_target(film, text, problems);
        if (target) task.targets.push_back(*target);
    }
    if (problems.empty()) check_targets(film, task.targets, task.kept, problems);
    return task;
}

std::string read_file(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    if (!file) throw FileError(path, "cannot be read");
    return {std::istreambuf_iterator<char>(file), {}};
}

// Writes the dimmers that have changed into the set file.
void write_dimmers(const std::string& path,
                   const FilmRecord& film,
                   const Balance& balance,
                   Problems& problems) {
    std::map<std::string, double> dimmers;
    for (size_t f = 0; f < film.fixtures.size(); ++f) {
        const Fixture& fixture = balance.fixtures[f];
        if (fixture.dimmer != film.fixtures[f].dimmer) dimmers[fixture.name] = fixture.dimmer;
    }
    const std::string text = change_dimmers(path, read_file(path), dimmers, problems);
    if (problems.empty()) write_text(path, text);
}

int run_balance(const BalanceArguments& arguments) {
    const FilmRecord film = read_exr(find_film(arguments.film));
    Problems problems;
    const Task task = read_task(arguments, film, problems);
    Balance balance;
    if (problems.empty()) balance = find_balance(film, task.targets, task.kept);
    const bool is_reached = std::all_of(balance.results.begin(),
                                        balance.results.end(),
                                        [](const TargetResult& r) { return r.is_reached(); });
    const bool writes = problems.empty() && !arguments.set.empty();
    if (writes && is_reached) write_dimmers(arguments.set, film, balance, problems);
    print_problems(problems);
    if (!problems.empty()) return kBadInput;
    const FilmRecord after =
        rebalance(film, balance.fixtures, make_layer_changes(film, balance.fixtures));
    const std::vector<std::string> reasons = why_missed(film, task.kept, balance);
    const std::vector<Wanting> wanting = find_wanting(film, task.kept, balance);
    std::cout << (arguments.json ? balance_json_text(balance, film, after, reasons, wanting)
                                 : balance_table_text(balance, film, after, reasons, wanting));
    if (writes && !is_reached) {
        std::cerr << arguments.set
                  << ": not written, because not every target is reached with these lamps\n";
        return kBadInput;
    }
    return kDone;
}

}  // namespace

void add_balance_command(CLI::App& app, int& exit_code) {
    const auto arguments = std::make_shared<BalanceArguments>();
    CLI::App& command = *app.add_subcommand("balance", "The dimmers that give the light you want");
    command.add_option("FILM", arguments->film, "The EXR of a render")->required();
    command.add_option("TARGET", arguments->targets, kTargetForms)->required();
    command.add_option("--keep", arguments->kept, "A fixture that keeps its dimmer")
        ->allow_extra_args(false);
    command.add_option("--write", arguments->set, "Write the dimmers into this set file");
    command.add_flag("--json", arguments->json, "Print the result as JSON");
    command.callback([arguments, &exit_code] { exit_code = run_balance(*arguments); });
}

}  // namespace dapple
