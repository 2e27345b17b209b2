#include "base/other_words.h"

#include <algorithm>
#include <cctype>

namespace dapple {

namespace {

constexpr OtherWord kOtherWords[] = {
    // Tables
    {"fixture", "light lights lamp lamps luminaire head fixtures spot spotlight spotlights", ""},
    {"fixture",
     "softbox soft_box panel",
     "a soft source is a fixture with form = \"panel\" and panel_m = [width, height]"},
    {"flag", "gobo cookie cucoloris", "a gobo is a flag with stencil = \"leaves.png\""},
    {"flag", "cutter solid negative_fill blocker flags", ""},
    {"diffuser", "scrim silk diffusion frost cloth butterfly diffusers umbrella", ""},
    {"bounce", "reflector board poly polyboard v_flat white_board bounces", ""},
    {"stand_in",
     "person model talent actor subject sitter mannequin figure dummy people human portrait",
     ""},
    {"column", "pillar post columns", ""},
    {"surface", "material materials wall walls floor ceiling surfaces paint", ""},
    {"meter", "light_meter measure probe sensor meters", ""},
    {"region", "area zone regions", ""},
    {"room", "studio location stage hall", ""},
    {"haze", "fog smoke mist hazer atmosphere volume", ""},
    {"haze_box", "cloud fog_box smoke_box haze_boxes", ""},
    {"visibility_m", "density thickness visibility extinction", ""},
    {"glass", "jar bottle vase tumbler pane prism glasses", ""},
    {"power", "electricity mains_power supply", ""},
    // Where things are
    {"position", "pos location place at origin xyz coordinates translate translation centre", ""},
    {"aim", "target look_at lookat looks_at pointing points_at direction towards to facing", ""},
    {"facing", "target look_at lookat looks_at pointing points_at direction towards aim", ""},
    {"turn_deg", "rotation rotate rotation_deg yaw heading pan azimuth", ""},
    {"tilt_deg", "pitch lean", ""},
    {"centre_m", "position center centre center_m pos middle", ""},
    {"size_m", "size dimensions dims extent width height width_m length", ""},
    {"panel_m", "size size_m dimensions width height softbox softbox_m", ""},
    {"diameter_m", "radius radius_m", "the diameter is twice the radius"},
    {"diameter_mm", "radius radius_mm width", "the diameter is twice the radius"},
    {"wall_mm", "thickness thickness_mm", ""},
    // Camera
    {"focal_length_mm", "lens lens_mm focal zoom", ""},
    {"f_number", "f f_stop fstop aperture iris stop t_stop tstop", ""},
    {"shutter_s", "shutter_speed exposure exposure_time exposure_s speed", ""},
    {"iso", "asa sensitivity film_speed gain ei", ""},
    {"focus_m", "focal_distance focus_distance focus_at", ""},
    {"frame_px", "resolution pixels image_size res size", ""},
    {"sensor_mm", "film_back sensor_size filmback format", ""},
    {"white_k", "white_balance wb kelvin color_temp colour_temp color_temperature temperature", ""},
    // Fixtures
    {"cct_k",
     "color_temp colour_temp color_temperature colour_temperature temperature kelvin k ct color "
     "colour",
     ""},
    {"duv", "green magenta tint plus_green minus_green", ""},
    {"luminance_cd_m2", "luminance brightness nits intensity level", ""},
    {"illuminance_lx", "illuminance lux lx lux_at_pane reading", ""},
    {"dimmer", "intensity brightness level dim dimming percent", ""},
    {"output_lm", "lumens lumen lm flux output light", ""},
    {"peak_cd", "candela cd candelas candlepower", ""},
    {"lux", "illuminance lx footcandles", ""},
    {"power_w",
     "watts wattage watt w power",
     "it is the electrical power; the light is output_lm, peak_cd or lux"},
    {"beam_angle_deg", "beam angle spread cone beam_spread spread_deg", ""},
    {"field_angle_deg", "field", ""},
    {"barn_doors_deg", "doors barndoors", ""},
    {"source_mm", "source_size size radius diameter aperture", ""},
    {"gel", "filter cto ctb gels color_filter correction", ""},
    {"gel", "scrim nd", "a scrim or a grey filter is gel = { stops = 1.0 }"},
    {"photometry", "file ies ldt ies_file eulumdat photometric", ""},
    {"supply", "battery mains plug powered_by", ""},
    {"circuit", "fuse breaker", ""},
    {"circuit_a", "amps ampere amperage current breaker fuse", ""},
    {"volts", "voltage", ""},
    {"mains", "sockets outlets", ""},
    {"form", "type kind shape", ""},
    {"source", "lamp bulb emitter light_source lamp_type", ""},
    // Glass, cloth, boards, surfaces
    {"reflectance", "color colour albedo reflectivity diffuse base_color rgb kd paint", ""},
    {"tint", "color colour", ""},
    {"glass", "material ior", ""},
    {"cloth", "material fabric textile type kind", ""},
    {"finish", "material type kind", ""},
    {"stencil", "gobo mask pattern texture image picture template", ""},
    {"surface", "texture pattern relief", ""},
    {"ribs", "ridges flutes facets", ""},
    {"frosted", "frost matte sandblasted etched", ""},
    {"fill", "water liquid contents filled", ""},
    {"coat", "wet varnish varnished clearcoat gloss", ""},
    {"roughness", "gloss glossiness shininess specular smoothness", ""},
    {"metal", "metallic metalness", ""},
    {"transmission", "opacity transparency transmittance", ""},
    {"clip_to", "clip attached_to attach mount", ""},
    {"model", "file obj mesh path geometry", ""},
    {"dress", "clothing clothes costume cape", ""},
    {"skin", "complexion skin_tone", ""},
    {"pose", "posture stance", ""},
    {"receptor", "type kind dome", ""},
    // Values
    {"wall_left", "left left_wall", ""},
    {"wall_right", "right right_wall", ""},
    {"wall_back", "back back_wall rear rear_wall far_wall", ""},
    {"wall_front", "front front_wall near_wall", ""},
    {"floor", "ground", ""},
    {"ceiling", "roof", ""},
    {"tungsten", "halogen incandescent quartz tungsten_halogen bulb hot", ""},
    {"daylight", "hmi sun sunlight metal_halide flash strobe", ""},
    {"led", "bicolor bi_colour bi_color bicolour", ""},
    {"spot", "fresnel profile ellipsoidal par projector beam", ""},
    {"panel", "softbox soft area rectangle rect square", ""},
    {"bare", "omni point practical bare_bulb bulb", ""},
    {"dome", "hemisphere half_sphere incident", ""},
    {"flat", "cosine disc disk", ""},
    {"mains", "ac wall socket", ""},
    {"battery", "dc accu", ""},
    {"seated", "sitting sit chair", ""},
    {"standing", "stand upright", ""},
    {"fair", "blond blonde light grey white", ""},
    {"dark", "black brown brunette", ""},
    {"none", "bald no", ""},
    {"lead-crystal", "crystal lead", ""},
    {"silica", "quartz fused_silica", ""},
    {"acrylic", "plastic pmma", ""},
    {"cobalt", "blue", ""},
    {"amber", "brown", ""},
    {"clear", "colourless colorless transparent white", ""},
    {"jar", "vase", ""},
    {"ball", "sphere", ""},
    {"rod", "cylinder stick", ""},
    {"pane", "sheet plate window", ""},
    {"tumbler", "cup drinking_glass", ""},
    {"reeded", "fluted", ""},
    {"seeded", "bubbles bubbly", ""},
    {"plain", "smooth", ""},
};

bool has_word(std::string_view words, std::string_view word) {
    for (size_t begin = 0; begin < words.size();) {
        const size_t end = std::min(words.find(' ', begin), words.size());
        if (words.substr(begin, end - begin) == word) return true;
        begin = end + 1;
    }
    return false;
}

}  // namespace

std::string plain_word(std::string_view word) {
    std::string plain;
    for (const char c : word) {
        const bool is_gap = c == ' ' || c == '-';
        plain += is_gap ? '_' : static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    }
    return plain;
}

const OtherWord* find_other_word(std::string_view word,
                                 const std::vector<std::string>& candidates) {
    const std::string plain = plain_word(word);
    for (const OtherWord& entry : kOtherWords) {
        if (has_word(entry.words, plain) &&
            std::find(candidates.begin(), candidates.end(), entry.ours) != candidates.end()) {
            return &entry;
        }
    }
    return nullptr;
}

}  // namespace dapple
