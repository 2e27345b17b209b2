#include "sheet_files.h"

#include <algorithm>
#include <filesystem>
#include <memory>
#include <optional>

#include "develop/exposure.h"
#include "film_path.h"
#include "judge/light_sentence.h"
#include "output/read_exr.h"
#include "output/write_frame.h"
#include "progress_line.h"
#include "sheets/contact_sheet.h"
#include "sheets/mood_frame.h"
#include "sheets/page_files.h"
#include "sheets/reduce_picture.h"

namespace dapple {

namespace {

// What the films have in common decides what their captions say.
struct Naming {
    std::vector<std::string> names;   // of the films' files, all different
    std::vector<std::string> titles;  // of their sets
    std::string note;                 // the number of frames, and the exposure if it is one

    bool one_title() const {
        return !titles.front().empty() &&
               std::all_of(titles.begin(), titles.end(), [&](const std::string& title) {
                   return title == titles.front();
               });
    }
    bool is_shared(size_t film) const {
        return std::count(titles.begin(), titles.end(), titles[film]) > 1;
    }
    MoodCaption caption(size_t film, const std::string& light) const {
        const bool needs_name = titles[film].empty() || is_shared(film);
        return {titles[film], needs_name ? names[film] : "", light};
    }
    std::string heading() const { return one_title() ? titles.front() : "Contact sheet"; }
    // The heading has the title already if it is that of all.
    std::string contact_name(size_t film) const {
        return one_title() ? names[film] : name_of(caption(film, ""));
    }
};

Naming name_films(const std::vector<std::string>& films) {
    Naming naming{distinct_names(films), {}, {}};
    std::optional<std::string> exposure;
    for (const std::string& film : films) {
        const FilmRecord record = read_exr_without_pixels(film);
        naming.titles.push_back(record.title);
        const std::string own = exposure_text(record.camera);
        exposure = !exposure || *exposure == own ? own : "";
    }
    naming.note = films.size() == 1 ? "1 frame" : std::to_string(films.size()) + " frames";
    if (!exposure->empty()) naming.note += "; " + *exposure;
    return naming;
}

void add_mood_frames(const std::string& base,
                     const FilmRecord& record,
                     const Picture& frame,
                     const MoodCaption& caption,
                     FinishedFiles& files) {
    const std::string name = name_of(caption);
    const FrameNotes notes{name + (name.empty() ? "" : ". ") + caption.light, &record.camera};
    const Picture mood = make_mood_frame(frame, caption).picture;
    files.push_back(write_frame(base + ".mood.png", mood, FrameFormat::kPng, notes));
    files.push_back(write_frame(base + ".mood.jpg", mood, FrameFormat::kJpeg, notes));
    files.push_back(write_frame(base + ".mood.tif", frame, FrameFormat::kTiff, notes));
}

}  // namespace

Picture developed(const FilmRecord& record) {
    const std::vector<Rgb> light = shown_light(record);
    return develop_display({record.width(), record.height(), light});
}

void add_contact_sheet(const std::string& base, const ContactSheet& sheet, FinishedFiles& files) {
    files.push_back(std::make_unique<SafeFile>(base + ".pdf"));
    SafeFile& pdf = *files.back();
    int pages = 0;
    const auto add_png = [&](const Page& page) {
        const std::string number = ++pages == 1 ? "" : "-" + std::to_string(pages);
        files.push_back(write_frame(
            base + number + ".png", picture_of(page), FrameFormat::kPng, {sheet.heading, nullptr}));
    };
    const auto draw_all = [&](const PageUse& add_to_pdf) {
        draw_contact_sheet(sheet, [&](const Page& page) {
            add_to_pdf(page);
            add_png(page);
        });
    };
    const std::string bytes = pdf_of(draw_all, sheet.heading);
    pdf.write_at(bytes.data(), bytes.size(), 0);
}

std::vector<std::string> write_sheet_files(const std::vector<std::string>& films,
                                           const std::string& folder) {
    const Naming naming = name_films(films);
    check_writable_folder(folder);
    const std::filesystem::path base(folder);
    FinishedFiles files;
    ContactSheet sheet{naming.heading(), naming.note, {}};
    {
        ProgressLine line;
        for (size_t i = 0; i < films.size(); ++i) {
            line.show_step("film " + std::to_string(i + 1) + " of " + std::to_string(films.size()));
            const FilmRecord record = read_exr(films[i]);
            const Picture frame = developed(record);
            const std::string light = light_sentence(record, judge_film(record));
            add_mood_frames(
                (base / naming.names[i]).string(), record, frame, naming.caption(i, light), files);
            sheet.frames.push_back(
                make_contact_frame(reduce_picture(frame, contact_frame_side(films.size())),
                                   naming.contact_name(i),
                                   light));
        }
        line.show_step("contact sheet");
        say_common_light_once(sheet);
        add_contact_sheet((base / "sheet").string(), sheet, files);
    }
    std::vector<std::string> paths;
    for (const std::unique_ptr<SafeFile>& file : files) {
        file->commit();
        paths.push_back(file->path());
    }
    return paths;
}

}  // namespace dapple
