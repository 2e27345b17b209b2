// Two walks over the text, so that sizes, limits and materials are known when the faces come:
// first points and MTL files, then faces. See read_obj.h.
#include "set/read_obj.h"

#include <algorithm>
#include <charconv>
#include <span>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "set/obj_mtl.h"
#include "set/obj_paths.h"
#include "set/obj_report.h"
#include "set/obj_text.h"
#include "set/obj_triangulate.h"

namespace dapple {

namespace {

bool is_one_of(std::string_view word, std::span<const std::string_view> words) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

// Grouping, display and level of detail: nothing that a picture of the surfaces needs.
constexpr std::string_view kPassedOver[] = {
    "o", "g", "l", "p", "mg", "lod", "bevel", "c_interp", "d_interp", "shadow_obj", "trace_obj"};

// Curves, curved surfaces and the commands of the older format.
constexpr std::string_view kFreeForm[] = {
    "vp",     "cstype", "deg",  "bmat", "step", "curv", "curv2", "surf",  "parm",
    "trim",   "hole",   "scrv", "sp",   "end",  "con",  "ctech", "stech", "maplib",
    "usemap", "bzp",    "bsp",  "cdc",  "cdp",  "res",  "call",  "csh"};

constexpr const char* kNoCorner = " is not a corner; must be like 7, 7/2, 7//3 or 7/2/3";

std::string plural(int64_t count, const std::string& one, const std::string& many) {
    return std::to_string(count) + " " + (count == 1 ? one : many);
}

class ObjReader {
  public:
    ObjReader(std::string_view text, const std::string& path, Problems& problems)
        : text_(text), folder_(folder_of(path)), problems_(problems), report_(path, problems) {
        model_.path = path;
    }

    ObjDescription read();

  private:
    // What an index picks from: so many were given before the face, so many are there in all.
    struct Indexed {
        const char* what;
        int64_t before;
        int64_t total;
    };
    // Given so far on the walk over the faces; negative indices count back from here.
    struct Counts {
        int32_t positions = 0;
        int32_t uvs = 0;
        int32_t normals = 0;
    };

    void read_points();
    template <size_t N>
    void read_point(std::vector<std::array<float, N>>& points, size_t needed, std::string_view key);
    void read_libraries();
    void add_library(std::string_view name, const Place& place);
    void pass_over(std::string_view word);

    void read_faces();
    void read_material_use();
    void read_smoothing_group();
    void read_face(std::string_view keyword);
    bool read_corner(std::string_view word, ObjCorner& corner);
    bool read_index(std::string_view word, const char*& at, const Indexed& indexed, int32_t& index);
    void add_face(int line, int column);
    int32_t undefined_material(std::string_view name);

    void check_faces();
    void check_maps();

    Place place_of(std::string_view word) const {
        return report_.place(scanner_.line(), scanner_.column(word));
    }

    std::string_view text_;
    std::string folder_;
    Problems& problems_;
    ObjReport report_;
    ObjScanner scanner_{""};
    ObjDescription model_;

    std::unordered_map<std::string, int32_t> material_of_name_;
    std::unordered_set<std::string> library_lines_;
    std::unordered_set<std::string> libraries_;
    size_t defined_materials_ = 0;

    size_t face_lines_ = 0;
    Counts seen_;
    int32_t material_ = -1;
    uint32_t smoothing_group_ = 0;
    std::vector<ObjCorner> face_;
    std::vector<std::array<float, 3>> outline_;
    Triangulator triangulator_;

    Tally free_form_;
    Tally unknown_;
    Tally flat_;
    Tally crossing_;
};

ObjDescription ObjReader::read() {
    read_points();
    defined_materials_ = model_.materials.size();
    read_faces();
    check_faces();
    check_maps();
    report_.finish();
    return std::move(model_);
}

// ---- Points and materials ----------------------------------------------------------------------

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
        } else if (word == "f" || word == "fo") {
            ++face_lines_;
        } else if (word == "mtllib") {
            read_libraries();
        } else if (word == "usemtl") {
            scanner_.rest_of_line();
        } else if (word != "s") {
            pass_over(word);
        }
    }
}

// Points that cannot be read keep their number, so that the faces after them still mean the same.
template <size_t N>
void ObjReader::read_point(std::vector<std::array<float, N>>& points,
                           size_t needed,
                           std::string_view key) {
    const int line = scanner_.line();
    const int column = scanner_.column(key);
    std::array<float, N> point{};
    size_t count = 0;
    for (; count < N; ++count) {
        const std::string_view word = scanner_.next_word();
        if (word.empty()) break;
        if (const char* trouble = read_number(word, point[count])) {
            point[count] = 0;
            report_.problem(place_of(word), std::string(key), quoted(word) + " " + trouble);
        }
    }
    if (count < needed) {
        report_.problem(report_.place(line, column),
                        std::string(key),
                        "has " + plural(static_cast<int64_t>(count), "number", "numbers") +
                            "; needs " + std::to_string(needed));
    }
    points.push_back(point);
}

void ObjReader::read_libraries() {
    const std::string_view line = scanner_.rest_of_line();
    if (!library_lines_.emplace(line).second) return;  // some exporters repeat it for each object
    for (const std::string_view name : part_file_names(folder_, line, ".mtl")) {
        add_library(name, place_of(name));
    }
}

void ObjReader::add_library(std::string_view name, const Place& place) {
    const std::string path = find_named_file(folder_, name);
    if (path.empty()) {
        report_.problem(place, "mtllib", "no such file: " + quoted(named_path(folder_, name)));
        return;
    }
    if (!libraries_.insert(path).second) return;
    std::vector<MtlDescription> materials;
    read_mtl(path, materials, problems_);
    for (MtlDescription& material : materials) {
        const auto index = static_cast<int32_t>(model_.materials.size());
        const auto [known, is_new] = material_of_name_.try_emplace(material.name, index);
        if (is_new) {
            model_.materials.push_back(std::move(material));
        } else {
            const Place& first = model_.materials[static_cast<size_t>(known->second)].place;
            report_.note(material.place,
                         "newmtl",
                         quoted(material.name) + " is there already (" + to_string(first) +
                             "); the first one counts");
        }
    }
}

void ObjReader::pass_over(std::string_view word) {
    if (is_one_of(word, kPassedOver)) {
        scanner_.rest_of_line();  // names may end in a backslash that joins no lines
    } else if (is_one_of(word, kFreeForm)) {
        free_form_.add(scanner_.line(), scanner_.column(word), word);
    } else {
        unknown_.add(scanner_.line(), scanner_.column(word), word);
    }
}

// ---- Faces
// ---------------------------------------------------------------------------------------

void ObjReader::read_faces() {
    model_.triangles.reserve(face_lines_);
    scanner_ = ObjScanner(text_);
    std::string_view word;
    while (scanner_.next_statement(word)) {
        if (word == "f" || word == "fo") {
            read_face(word);
        } else if (word == "v") {
            ++seen_.positions;
        } else if (word == "vt") {
            ++seen_.uvs;
        } else if (word == "vn") {
            ++seen_.normals;
        } else if (word == "usemtl") {
            read_material_use();
        } else if (word == "s") {
            read_smoothing_group();
        } else if (word == "mtllib" || is_one_of(word, kPassedOver)) {
            scanner_.rest_of_line();
        }
    }
}

void ObjReader::read_material_use() {
    const std::string_view name = scanner_.rest_of_line();
    if (name.empty()) {
        material_ = -1;
        return;
    }
    auto found = material_of_name_.find(std::string(name));
    if (found == material_of_name_.end()) {
        const std::string_view without_comment = name.substr(0, name.find(" #"));
        found = material_of_name_.find(std::string(without_comment));
    }
    material_ = found != material_of_name_.end() ? found->second : undefined_material(name);
}

// Stays in the model under its name, in the grey of a default material: a surface of the set file
// may still give it a colour.
int32_t ObjReader::undefined_material(std::string_view name) {
    MtlDescription material;
    material.name = name;
    material.place = place_of(name);
    if (report_.shows_notes()) {
        constexpr size_t kLongestMeant = 64;
        std::vector<std::string> names;
        for (size_t i = 0; i < defined_materials_ && name.size() <= kLongestMeant; ++i) {
            if (model_.materials[i].name.size() <= kLongestMeant) {
                names.push_back(model_.materials[i].name);
            }
        }
        const std::string nearest = nearest_word(name, names);
        report_.note(material.place,
                     "usemtl",
                     quoted(name) + " is in no MTL file; taken as mid grey" +
                         (nearest.empty() ? "" : " (the nearest is " + quoted(nearest) + ")"));
    }
    const auto index = static_cast<int32_t>(model_.materials.size());
    material_of_name_.emplace(material.name, index);
    model_.materials.push_back(std::move(material));
    return index;
}

void ObjReader::read_smoothing_group() {
    const std::string_view word = scanner_.next_word();
    smoothing_group_ = 0;
    if (word.empty() || word == "off") return;
    const char* const last = word.data() + word.size();
    const auto [stop, error] = std::from_chars(word.data(), last, smoothing_group_);
    if (error == std::errc() && stop == last) return;
    smoothing_group_ = word == "on" ? 1 : 0;
    if (word != "on") {
        report_.problem(
            place_of(word), "s", quoted(word) + " is not a group; must be off or a whole number");
    }
}

void ObjReader::read_face(std::string_view keyword) {
    const int line = scanner_.line();
    const int column = scanner_.column(keyword);
    face_.clear();
    bool is_whole = true;
    for (std::string_view word = scanner_.next_word(); !word.empty(); word = scanner_.next_word()) {
        ObjCorner corner;
        if (!read_corner(word, corner)) {
            is_whole = false;
            break;
        }
        if (face_.size() == kMaxCorners) {
            report_.problem(place_of(word),
                            "f",
                            "has more than " + std::to_string(kMaxCorners) +
                                " corners, the most that a face may have");
            is_whole = false;
            break;
        }
        face_.push_back(corner);
    }
    if (!is_whole) return;
    if (face_.size() < 3) {
        report_.problem(report_.place(line, column),
                        "f",
                        "has " + plural(static_cast<int64_t>(face_.size()), "corner", "corners") +
                            "; needs at least 3");
        return;
    }
    add_face(line, column);
}

// A corner is position, position/uv, position//normal or position/uv/normal.
bool ObjReader::read_corner(std::string_view word, ObjCorner& corner) {
    const char* at = word.data();
    const char* const end = at + word.size();
    const auto has_field = [&] {  // behind a slash; some exporters leave it empty
        if (at == end || *at != '/') return false;
        ++at;
        return at != end && *at != '/';
    };
    const auto read = [&](const char* what, int32_t before, size_t total, int32_t& index) {
        return read_index(word, at, {what, before, static_cast<int64_t>(total)}, index);
    };
    if (!read("vertex", seen_.positions, model_.positions.size(), corner.position) ||
        (has_field() && !read("texture coordinate", seen_.uvs, model_.uvs.size(), corner.uv)) ||
        (has_field() && !read("normal", seen_.normals, model_.normals.size(), corner.normal))) {
        return false;
    }
    if (at != end) {
        report_.problem(place_of(word), "f", quoted(word) + kNoCorner);
        return false;
    }
    // A normal of no length says nothing.
    if (corner.normal >= 0 &&
        model_.normals[static_cast<size_t>(corner.normal)] == std::array<float, 3>{}) {
        corner.normal = -1;
    }
    return true;
}

// Reads one index of a corner at `at` and goes behind it.
bool ObjReader::read_index(std::string_view word,
                           const char*& at,
                           const Indexed& indexed,
                           int32_t& index) {
    int64_t number = 0;
    const auto [stop, error] = std::from_chars(at, word.data() + word.size(), number);
    if (error == std::errc::invalid_argument) {
        report_.problem(place_of(word), "f", quoted(word) + kNoCorner);
        return false;
    }
    const bool counts_back = number < 0;
    const int64_t place = counts_back ? indexed.before + number : number - 1;
    if (error == std::errc() && place >= 0 && place < indexed.total) {
        index = static_cast<int32_t>(place);
        at = stop;
        return true;
    }
    const std::string_view digits(at, static_cast<size_t>(stop - at));
    std::string trouble =
        "uses " + std::string(indexed.what) + " " + std::string(digits.substr(0, 24));
    if (number == 0 && error == std::errc()) {
        trouble += "; the first is 1";
    } else if (counts_back) {
        trouble += ", but only " + std::to_string(indexed.before) + " stand before it";
    } else {
        trouble += " of " + std::to_string(indexed.total);
    }
    report_.problem(place_of(digits), "f", trouble);
    return false;
}

void ObjReader::add_face(int line, int column) {
    outline_.clear();
    for (const ObjCorner& corner : face_) {
        outline_.push_back(model_.positions[static_cast<size_t>(corner.position)]);
    }
    const PolygonCut cut = triangulator_.cut(outline_);
    for (const std::array<int32_t, 3>& corners : cut.triangles) {
        ObjTriangle triangle;
        for (size_t i = 0; i < 3; ++i) {
            triangle.corners[i] = face_[static_cast<size_t>(corners[i])];
        }
        triangle.material = material_;
        triangle.smoothing_group = smoothing_group_;
        triangle.line = line;
        model_.triangles.push_back(triangle);
    }
    if (cut.flat > 0) flat_.add(line, column);
    if (cut.crosses) crossing_.add(line, column);
}

// ---- At the end
// ------------------------------------------------------------------------------------

void ObjReader::check_faces() {
    if (face_lines_ == 0) {
        const auto count = static_cast<int64_t>(model_.positions.size());
        report_.problem(
            report_.place(0, 0),
            "",
            "has no faces" + (count > 0 ? ", only " + plural(count, "vertex", "vertices") : ""));
    } else if (model_.triangles.empty() && flat_.count > 0) {
        report_.problem(report_.place(0, 0), "", "has no face with an area");
    }
    const auto note = [this](const Tally& tally, const std::string& what) {
        if (tally.count == 0) return;
        const std::string more =
            tally.count > 1 ? " (" + plural(tally.count, "line", "lines") + " in all)" : "";
        report_.note(report_.place(tally.line, tally.column), tally.word, what + more);
    };
    note(free_form_, "curves and curved surfaces are not read; passed over");
    if (unknown_.count > 0) unknown_.word = quoted(unknown_.word);
    note(unknown_, "is not an OBJ statement; passed over");
    note(flat_, "the face has a part without area; left out");
    note(crossing_, "the face crosses itself; its triangles are a guess");
}

void ObjReader::check_maps() {
    std::vector<bool> is_used(model_.materials.size(), false);
    for (const ObjTriangle& triangle : model_.triangles) {
        if (triangle.material >= 0) is_used[static_cast<size_t>(triangle.material)] = true;
    }
    find_maps(model_.materials, is_used, problems_);
}

}  // namespace

ObjDescription read_obj(const std::string& path, Problems& problems) {
    TextFile file;
    if (!read_text_file(path, problems, file)) {
        ObjDescription nothing;
        nothing.path = path;
        return nothing;
    }
    return read_obj_text(file.text(), path, problems);
}

ObjDescription read_obj_text(std::string_view text, const std::string& path, Problems& problems) {
    return ObjReader(text, path, problems).read();
}

}  // namespace dapple
