// dapple sheet FILM…: the films as frames to hand over.
#include <iostream>

#include "commands.h"
#include "film_path.h"
#include "sheet_files.h"

namespace dapple {

namespace {

struct SheetArguments {
    std::vector<std::string> films;
    std::string folder = ".";
};

void run_sheet(const SheetArguments& arguments) {
    for (const std::string& path :
         write_sheet_files(find_films(arguments.films), arguments.folder)) {
        std::cout << path << '\n';
    }
}

}  // namespace

void add_sheet_command(CLI::App& app, int& exit_code) {
    const auto arguments = std::make_shared<SheetArguments>();
    CLI::App& command =
        *app.add_subcommand("sheet", "Frames to hand over: mood frames and a contact sheet");
    command.add_option("FILM", arguments->films, "EXRs of renders, or folders that hold them")
        ->required();
    command.add_option("-o,--output", arguments->folder, "Folder for the results");
    command.callback([arguments, &exit_code] {
        run_sheet(*arguments);
        exit_code = kDone;
    });
}

}  // namespace dapple
