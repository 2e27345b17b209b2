#include "shared_options.h"

#include "option_checks.h"

namespace dapple {

void add_set_option(CLI::App& command, std::string& set) {
    command.add_option("SET", set, "The set file")->required();
}

void add_strict_option(CLI::App& command, bool& strict) {
    command.add_flag("--strict", strict, "Stop if there is a warning about the set (exit code 2)");
}

void add_limit_options(CLI::App& command, double& seconds, int& passes) {
    command.add_option("--seconds", seconds, "Stop after this time")->check(number_above_zero());
    command.add_option("--passes", passes, "Stop after this many passes")
        ->check(whole_number(1, 1'000'000'000));
}

void add_threads_option(CLI::App& command, int& threads) {
    command.add_option("--threads", threads, "Threads; all of the machine's when left out")
        ->check(whole_number(1, 1024));
}

void add_seed_option(CLI::App& command, uint64_t& seed, const std::string& help) {
    command.add_option("--seed", seed, help)->check(whole_number(0, UINT64_MAX));
}

void add_float_option(CLI::App& command, bool& keeps_floats) {
    command.add_flag("--float",
                     keeps_floats,
                     "Layers of the EXR with 32 bits too, in place of 16; a larger file");
}

void add_transport_option(CLI::App& command, std::string& transport, const std::string& help) {
    command.add_option("--transport", transport, help)
        ->check(CLI::IsMember({"full", "walks", "camera", "partition"}).description(""));
}

Transport transport_named(const std::string& name) {
    if (name == "walks") return Transport::kWalks;
    if (name == "camera") return Transport::kCamera;
    return name == "partition" ? Transport::kPartition : Transport::kFull;
}

}  // namespace dapple
