// The text is read twice. The first time reads the points and the MTL files; the second time reads
// the faces, which need both.
#include "set/obj/read_obj.h"

#include <charconv>
#include <vector>

#include "base/large_memory.h"
#include "set/obj/obj_faces.h"
#include "set/obj/obj_materials.h"
#include "set/models/named_files.h"
#include "set/models/model_report.h"
#include "set/obj/obj_text.h"
#include "set/text_file.h"

namespace dapple {

namespace {

// Statements that are skipped without a note, because they change no surface: groups, lines (l),
// points (p), display and level of detail.
constexpr std::string_view kSkipped[] = {
    "o", "g", "l", "p", "mg", "lod", "bevel", "c_interp", "d_interp", "shadow_obj", "trace_obj"};

// Curves, curved surfaces and the commands of the older format.
constexpr std::string_view kFreeForm[] = {
    "vp",     "cstype", "deg",  "bmat", "step", "curv", "curv2", "surf",  "parm",
    "trim",   "hole",   "scrv", "sp",   "end",  "con",  "ctech", "stech", "maplib",
    "usemap", "bzp",    "bsp",  "cdc",  "cdp",  "res",  "call",  "csh"};

bool is_face(std::string_view word) {
    return word == "f" || word == "fo";
}

class ObjReader {
  public:
    ObjReader(std::string_view text, const std::string& path, Problems& problems)
        : text_(text), report_(path, problems), materials_(folder_of(path), problems, report_) {
        model_.path = path;
    }

    ModelDescription read() {
        read_points();
        read_faces();
        check_faces();
        note_ignored();
        model_.materials = materials_.take(model_.triangles);
        report_.finish();
        return std::move(model_);
    }

  private:
    void read_points();
    template <size_t N>
    void read_point(std::vector<std::array<float, N>>& points,
                    size_t needed,
                    std::string_view keyword);
    void read_libraries();
    void count_if_ignored(std::string_view word);

    void read_faces();
    int32_t read_material_use();
    uint32_t read_smoothing_group();
    void check_faces();
    void note_ignored();

    std::string_view text_;
    ModelReport report_;
    ObjMaterials materials_;
    ModelDescription model_;
    ObjScanner scanner_{""};
    size_t face_lines_ = 0;
    Tally free_form_;  // ignored statements of kFreeForm
    Tally unknown_;    // ignored statements that are not of OBJ
};

void ObjReader::read_points() {
    scanner_ = ObjScanner(text_);
    std::string_view word;
    while (scanner_.next_statement(word)) {
        if (word == "v") {
            read_point(model_.positions, 3, word);
        } else if (word == "vt") {
            read_point(model_.uvs, 1, word);
        } else if (word == "vn") {
            read_point(model_.normals, 3, word);
        } else if (is_face(word)) {
            ++face_lines_;
        } else if (word == "mtllib") {
            read_libraries();
        } else {
            count_if_ignored(word);
        }
    }
}

// Adds a point even if the statement has an error, so that the indices of later points stay right.
// Numbers that are missing or cannot be read are 0.
template <size_t N>
void ObjReader::read_point(std::vector<std::array<float, N>>& points,
                           size_t needed,
                           std::string_view keyword) {
    const int line = scanner_.line();
    const int column = scanner_.column(keyword);
    std::array<float, N> point{};
    size_t count = 0;
    for (; count < N; ++count) {
        const std::string_view word = scanner_.next_word();
        if (word.empty()) break;
        if (const char* trouble = read_number(word, point[count])) {
            point[count] = 0;
            report_.problem(report_.place_of(scanner_, word),
                            std::string(keyword),
                            in_quotes(word) + " " + trouble);
        }
    }
    if (count < needed) {
        report_.problem(report_.place(line, column),
                        std::string(keyword),
                        "has " + std::to_string(count) + (count == 1 ? " number" : " numbers") +
                            "; needs " + std::to_string(needed));
    }
    points.push_back(point);
}

void ObjReader::read_libraries() {
    const std::string_view names = scanner_.rest_of_line();
    materials_.read_libraries(names, scanner_.line(), scanner_.column(names));
}

// Counts a statement that the reader ignores with a note. The others, which are s, usemtl and those
// of kSkipped, are only passed over; read_faces reads s and usemtl.
void ObjReader::count_if_ignored(std::string_view word) {
    if (word == "s") return;
    if (word == "usemtl" || is_one_of(word, kSkipped)) {
        // Many of these end in a name. A backslash at the end of a name does not join the next line
        // to this one, so the rest of this line is read here as one name.
        scanner_.rest_of_line();
    } else {
        Tally& tally = is_one_of(word, kFreeForm) ? free_form_ : unknown_;
        tally.add(scanner_.line(), scanner_.column(word), word);
    }
}

void ObjReader::read_faces() {
    reserve_large(model_.triangles, face_lines_);
    ObjFaces faces(model_, report_);
    ObjFaces::State state;
    scanner_ = ObjScanner(text_);
    std::string_view word;
    while (scanner_.next_statement(word)) {
        if (is_face(word)) {
            faces.read(scanner_, word, state);
        } else if (word == "v") {
            ++state.given_positions;
        } else if (word == "vt") {
            ++state.given_uvs;
        } else if (word == "vn") {
            ++state.given_normals;
        } else if (word == "usemtl") {
            state.material = read_material_use();
        } else if (word == "s") {
            state.smoothing_group = read_smoothing_group();
        } else if (word == "mtllib" || is_one_of(word, kSkipped)) {
            scanner_.rest_of_line();
        }
    }
    faces.note_odd_faces();
}

int32_t ObjReader::read_material_use() {
    const std::string_view name = scanner_.rest_of_line();
    return materials_.use(name, report_.place_of(scanner_, name));
}

uint32_t ObjReader::read_smoothing_group() {
    const std::string_view word = scanner_.next_word();
    if (word.empty() || word == "off") return 0;
    if (word == "on") return 1;
    uint32_t group = 0;
    const char* const last = word.data() + word.size();
    const auto [stop, error] = std::from_chars(word.data(), last, group);
    if (error == std::errc() && stop == last) return group;
    report_.problem(report_.place_of(scanner_, word),
                    "s",
                    in_quotes(word) + " is not a group; must be off or a whole number");
    return 0;
}

void ObjReader::check_faces() {
    const Place whole_file = report_.place(0, 0);
    const std::string no_keyword;
    if (face_lines_ == 0) {
        const size_t count = model_.positions.size();
        const std::string vertices = std::to_string(count) + (count == 1 ? " vertex" : " vertices");
        report_.problem(
            whole_file, no_keyword, count > 0 ? "has no faces, only " + vertices : "has no faces");
    } else if (model_.triangles.empty() && !report_.has_problems()) {
        report_.problem(whole_file, no_keyword, "has no face with an area");
    }
}

// Adds at most one note for the curves and curved surfaces and one for the unknown statements.
void ObjReader::note_ignored() {
    report_.note(
        free_form_, free_form_.word, "is ignored; curves and curved surfaces are not read");
    const std::string no_keyword;  // the message starts with the word
    report_.note(
        unknown_, no_keyword, in_quotes(unknown_.word) + " is not an OBJ statement; ignored");
}

}  // namespace

ModelDescription read_obj(const std::string& path, Problems& problems) {
    TextFile file;
    if (!read_text_file(path, problems, file)) {
        ModelDescription nothing;
        nothing.path = path;
        return nothing;
    }
    return read_obj_text(file.text(), path, problems);
}

ModelDescription read_obj_text(std::string_view text, const std::string& path, Problems& problems) {
    return ObjReader(text, path, problems).read();
}

}  // namespace dapple
