// The commands of the program, one file each. They join the stages and hold no physics.
#pragma once

#include <CLI/CLI.hpp>

namespace dapple {

// Exit codes of the program.
inline constexpr int kDone = 0;
inline constexpr int kOurFault = 1;
inline constexpr int kBadInput = 2;
inline constexpr int kStoppedEarly = 3;  // results kept

// Each adds its subcommand. If the command line names it, it runs and sets `exit_code`.
void add_render_command(CLI::App& app, int& exit_code);
void add_check_command(CLI::App& app, int& exit_code);
void add_desk_command(CLI::App& app, int& exit_code);
void add_meter_command(CLI::App& app, int& exit_code);
void add_judge_command(CLI::App& app, int& exit_code);
void add_kit_command(CLI::App& app, int& exit_code);
void add_keys_command(CLI::App& app, int& exit_code);
void add_plan_command(CLI::App& app, int& exit_code);
void add_rebalance_command(CLI::App& app, int& exit_code);
void add_balance_command(CLI::App& app, int& exit_code);
void add_merge_command(CLI::App& app, int& exit_code);
void add_overnight_command(CLI::App& app, int& exit_code);
void add_search_command(CLI::App& app, int& exit_code);
void add_sheet_command(CLI::App& app, int& exit_code);
void add_new_command(CLI::App& app, int& exit_code);
// These two use the definitions of all commands.
void add_completion_command(CLI::App& app, int& exit_code);
void add_manual_command(CLI::App& app, int& exit_code);

}  // namespace dapple
