// dapple sheet FILM.exr --page: the film as one HTML page with a slider for each fixture.
#include <filesystem>
#include <iostream>

#include "commands.h"
#include "load_set.h"
#include "output/read_exr.h"
#include "output/safe_file.h"
#include "page/make_page.h"

namespace dapple {

namespace {

namespace fs = std::filesystem;

struct SheetArguments {
    std::string film;
    std::string folder = ".";
    bool page = false;
    bool keeps_size = false;
};

// The film itself, or the only one in a folder of results.
std::string film_in(const std::string& path) {
    if (!fs::is_directory(path)) return path;
    std::string found;
    for (const fs::directory_entry& entry : fs::directory_iterator(path)) {
        if (entry.path().extension() != ".exr") continue;
        if (!found.empty()) throw FileError(path, "has several films; name one of them");
        found = entry.path().string();
    }
    if (found.empty()) throw FileError(path, "has no film (.exr)");
    return found;
}

void write_page(const SheetArguments& arguments) {
    const std::string path = film_in(arguments.film);
    const FilmRecord film = read_exr(path);
    const std::string file = (fs::path(arguments.folder) / "sheet.html").string();
    check_writable_folder(arguments.folder);
    PageOptions options;
    options.name = set_stem(path);
    options.keeps_size = arguments.keeps_size;
    const Page page = make_page(film, options);
    write_text(file, page.html);
    if (page.width < film.width()) {
        std::cerr << "note: so many fixtures take too much room; the frame in the page has "
                  << page.width << " x " << page.height << " pixels; --full-size keeps them all\n";
    }
    std::cout << file << '\n';
}

}  // namespace

void add_sheet_command(CLI::App& app, int& exit_code) {
    const auto arguments = std::make_shared<SheetArguments>();
    CLI::App& command = *app.add_subcommand("sheet", "Frames to hand over");
    command.add_option("FILM", arguments->film, "The EXR of a render, or its folder")->required();
    command.add_option("-o,--output", arguments->folder, "Folder for the results");
    command.add_flag("--page", arguments->page, "sheet.html: the frame with sliders, offline")
        ->required();
    command.add_flag("--full-size", arguments->keeps_size, "The page may become larger than 8 MB");
    command.callback([arguments, &exit_code] {
        write_page(*arguments);
        exit_code = kDone;
    });
}

}  // namespace dapple
