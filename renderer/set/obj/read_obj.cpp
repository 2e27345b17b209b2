// The text is read twice. The first time reads the points and the MTL files; the second time reads
// the faces, which need both.
#include "set/obj/read_obj.h"

#include <charconv>
#include <cmath>
#include <vector>

#include "base/large_memory.h"
#include "set/models/find_pictures.h"
#include "set/models/model_report.h"
#include "set/models/named_files.h"
#include "set/models/vertex_colours.h"
#include "set/obj/obj_faces.h"
#include "set/obj/obj_materials.h"
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
    ObjReader(std::string_view text, const std::string& path, ModelParts parts, Problems& problems)
        : text_(text),
          parts_(parts),
          problems_(problems),
          report_(path, problems),
          materials_(folder_of(path), problems, report_) {
        model_.path = path;
    }

    ModelDescription read() {
        read_points();
        read_faces();
        check_faces();
        if (parts_ == ModelParts::kAll) {
            model_.materials = materials_.take();
            find_pictures(model_, problems_);
            colours_.give_to(model_);
        }
        report_.finish();
        return std::move(model_);
    }

  private:
    void read_points();
    template <class Number, size_t N>
    bool read_point(std::vector<std::array<Number, N>>& points,
                    size_t needed,
                    std::string_view keyword);
    void read_vertex(std::string_view keyword);
    void read_libraries();
    void skip_or_note(std::string_view word);
    void note_ignored(std::string_view word);

    void read_faces();
    int32_t read_material_use();
    uint32_t read_smoothing_group();
    void check_faces();

    std::string_view text_;
    ModelParts parts_;
    Problems& problems_;
    ModelReport report_;
    ObjMaterials materials_;
    ModelDescription model_;
    VertexColours colours_;
    ObjScanner scanner_{""};
    size_t face_lines_ = 0;
};

void ObjReader::read_points() {
    scanner_ = ObjScanner(text_);
    std::string_view word;
    while (scanner_.next_statement(word)) {
        if (word == "v") {
            read_vertex(word);
        } else if (word == "vt") {
            read_point(model_.uvs, 1, word);
        } else if (word == "vn") {
            read_point(model_.normals, 3, word);
        } else if (is_face(word)) {
            ++face_lines_;
        } else if (word == "mtllib") {
            read_libraries();
        } else {
            skip_or_note(word);
        }
    }
}

// Adds a point even if the statement has an error, so that the indices of later points stay right.
// Numbers that are missing or cannot be read are 0. Returns whether the statement may go on.
template <class Number, size_t N>
bool ObjReader::read_point(std::vector<std::array<Number, N>>& points,
                           size_t needed,
                           std::string_view keyword) {
    const Place start = report_.place_of(scanner_, keyword);
    std::array<Number, N> point{};
    size_t count = 0;
    for (; count < N; ++count) {
        const std::string_view word = scanner_.next_word();
        if (word.empty()) break;
        const char* trouble = read_number(word, point[count]);
        if (!trouble && std::abs(point[count]) > kFarthestVertex) trouble = "is too large a number";
        if (trouble) {
            point[count] = 0;
            report_.problem(report_.place_of(scanner_, word),
                            std::string(keyword),
                            in_quotes(word) + " " + trouble,
                            {trouble});
        }
    }
    if (count < needed) {
        report_.problem(start,
                        std::string(keyword),
                        "has " + std::to_string(count) + (count == 1 ? " number" : " numbers") +
                            "; needs " + std::to_string(needed),
                        {"count"});
    }
    points.push_back(point);
    return count == N;
}

// A vertex may have a colour after its coordinates: r g b, r g b 1 or a weight and then r g b. A
// weight alone is of curved surfaces.
void ObjReader::read_vertex(std::string_view keyword) {
    if (!read_point(model_.positions, 3, keyword)) return;
    std::array<float, 4> more{};
    size_t count = 0;
    for (; count < 4; ++count) {
        const std::string_view word = scanner_.next_word();
        if (word.empty()) break;
        if (read_number(word, more[count]) != nullptr) return;
    }
    if (count < 3) return;
    const size_t first = count == 4 && more[3] != 1 ? 1 : 0;
    colours_.add(model_.positions.size() - 1, {more[first], more[first + 1], more[first + 2]});
}

void ObjReader::read_libraries() {
    const std::string_view names = scanner_.rest_of_line();
    if (parts_ == ModelParts::kShape) return;
    materials_.read_libraries(names, scanner_.line(), scanner_.column(names));
}

// Passes over s, usemtl and the statements of kSkipped, and notes the others as ignored. read_faces
// reads s and usemtl.
void ObjReader::skip_or_note(std::string_view word) {
    if (word == "s") return;
    if (word == "usemtl" || is_one_of(word, kSkipped)) {
        // Many of these end in a name. A backslash at the end of a name does not join the next line
        // to this one, so the rest of this line is read here as one name.
        scanner_.rest_of_line();
    } else {
        note_ignored(word);
    }
}

// One note for curves and curved surfaces, and one for unknown statements.
void ObjReader::note_ignored(std::string_view word) {
    const bool free_form = is_one_of(word, kFreeForm);
    const char* why = free_form ? " is ignored; curves and curved surfaces are not read"
                                : " is not an OBJ statement; ignored";
    report_.note(report_.place_of(scanner_, word), "", in_quotes(word) + why, {why});
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
}

int32_t ObjReader::read_material_use() {
    const std::string_view name = scanner_.rest_of_line();
    if (parts_ == ModelParts::kShape) return -1;
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
                    in_quotes(word) + " is not a group; must be off or a whole number",
                    {"group"});
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

}  // namespace

ModelDescription read_obj(const std::string& path, Problems& problems, ModelParts parts) {
    TextFile file;
    if (!read_text_file(path, problems, file)) {
        ModelDescription nothing;
        nothing.path = path;
        return nothing;
    }
    return read_obj_text(file.text(), path, problems, parts);
}

ModelDescription read_obj_text(std::string_view text,
                               const std::string& path,
                               Problems& problems,
                               ModelParts parts) {
    return ObjReader(text, path, parts, problems).read();
}

}  // namespace dapple
