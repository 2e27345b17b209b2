// dapple sheet FILM…: the films as frames to hand over.
#include <filesystem>
#include <iostream>

#include "commands.h"
#include "film_path.h"
#include "output/read_exr.h"
#include "output/safe_file.h"
#include "page/make_page.h"
#include "sheet_files.h"
#include "sheet_owner.h"

namespace dapple {

namespace {

struct SheetArguments {
    std::vector<std::string> films;
    std::string folder = ".";
    bool page_alone = false;
    bool keeps_size = false;
};

void write_page(const SheetArguments& arguments, const std::string& path, const std::string& file) {
    const FilmRecord film = read_exr(path);
    PageOptions options;
    options.name = film_stem(path);
    options.keeps_size = arguments.keeps_size;
    const FilmPage page = make_page(film, options);
    write_text(file, page.html);
    if (page.width < film.width()) {
        std::cerr << "note: so many fixtures take too much room; the frame in the page has "
                  << page.width << " x " << page.height << " pixels; --full-size keeps them all\n";
    }
    std::cout << file << '\n';
}

// sheet.html, or for several films NAME.html.
void write_pages(const SheetArguments& arguments,
                 const std::vector<std::string>& films,
                 const std::vector<std::string>& names) {
    check_writable_folder(arguments.folder);
    for (size_t i = 0; i < films.size(); ++i) {
        const std::string name = films.size() == 1 ? "sheet" : names[i];
        write_page(arguments,
                   films[i],
                   (std::filesystem::path(arguments.folder) / (name + ".html")).string());
    }
}

void run_sheet(const SheetArguments& arguments) {
    const std::vector<std::string> films = find_films(arguments.films);
    const std::vector<std::string> names = distinct_names(films);
    check_sheet_owner(arguments.folder, films, names);
    if (!arguments.page_alone) {
        for (const std::string& path : write_sheet_files(films, arguments.folder)) {
            std::cout << path << '\n';
        }
    }
    write_pages(arguments, films, names);
    std::cout << write_sheet_owner(arguments.folder, films) << '\n';
}

}  // namespace

void add_sheet_command(CLI::App& app, int& exit_code) {
    const auto arguments = std::make_shared<SheetArguments>();
    CLI::App& command = *app.add_subcommand(
        "sheet", "Frames to hand over: mood frames, a contact sheet and pages with sliders");
    command.add_option("FILM", arguments->films, "EXRs of renders, or folders that hold them")
        ->required();
    command.add_option("-o,--output", arguments->folder, "Folder for the results");
    command.add_flag("--page", arguments->page_alone, "Only the pages with sliders");
    command.add_flag("--full-size", arguments->keeps_size, "A page may become larger than 8 MB");
    command.callback([arguments, &exit_code] {
        run_sheet(*arguments);
        exit_code = kDone;
    });
}

}  // namespace dapple
