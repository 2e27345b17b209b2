#include "published/counted_walks.h"

#include <algorithm>
#include <cmath>

#include "base/parallel.h"
#include "math/sequences.h"
#include "published/vertex_law.h"
#include "render/prepare/setup.h"

namespace dapple::published {

namespace {

constexpr int kMaxBounces = 2000;

// One light walk as in trace_light_walk, without connections.
class CountedWalk {
  public:
    CountedWalk(const Stage& stage, size_t fixture, uint32_t index, PassAccounts& accounts)
        : stage_(stage),
          accounts_(accounts),
          random_(stage.seed, stage.pass, mix_bits(fixture, index), Purpose::kLightWalk),
          draws_(stage.seed, stage.pass, mix_bits(fixture, index), Purpose::kTest),
          fixture_(fixture),
          index_(index) {}

    void follow() {
        if (start()) {
            add(Account::kSent, Spectrum(1.0F));
            while (step()) continue;
        }
        accounts_.nonfinite += walk_.nonfinite;
    }

  private:
    void add(Account account, const Spectrum& part) {
        accounts_.lumens[static_cast<size_t>(account)] +=
            lumens_ * static_cast<double>(part.mean());
    }

    // Starts the first ray (E69).
    bool start() {
        const Emitter& emitter = stage_.emitters[fixture_];
        const auto u = sobol_owen_4d(
            index_, static_cast<uint32_t>(mix_bits(mix_bits(stage_.seed, stage_.pass), fixture_)));
        const LampLight light = emitter.sample_emission(u[0], u[1], u[2], u[3]);
        if (!(light.luminance > 0 && light.pdf_direction > 0)) return false;
        lumens_ = static_cast<double>(light.luminance) * light.cos_lamp /
                  (static_cast<double>(light.pdf_area) * light.pdf_direction *
                   stage_.light_walks(fixture_));
        walk_.light.hero = static_cast<int>((index_ + stage_.pass) % kSpectrumSize);
        walk_.media = stage_.start.lamps[fixture_];
        SurfacePoint lamp;
        lamp.position = light.position;
        lamp.geometric = light.normal;
        walk_.ray = Ray{offset_origin(lamp, light.direction), light.direction, 0.0F, kInfinity};
        return true;
    }

    // Accounts for the light that the medium absorbs on a straight way (Beer and Lambert).
    void keep_in_medium(const Spectrum& begun, MaterialId medium, const Vec3& way) {
        if (medium == kNoMaterial) return;
        const Spectrum depth = stage_.materials.absorption(medium) * glm::length(way);
        add(Account::kMedia, begun * (Spectrum(1.0F) - exp(depth * -1.0F)));
    }

    // The account in which the ray's light ends if there is no next vertex, and the ray's end.
    Account end_of_ray(Point& end) const {
        Hit hit;
        if (!stage_.world.closest(walk_.ray, hit)) return Account::kEscaped;
        const SurfacePoint on = stage_.world.surface_at(walk_.ray, hit);
        end = on.position;
        return on.material == kNoMaterial ? Account::kBlack : Account::kCut;
    }

    void keep_at(const Vertex& vertex) {
        const bool ground = std::holds_alternative<RoughGlass>(vertex.bsdf.kind);
        const SentOn on = sent_on(vertex, draws_);
        add(ground ? Account::kGround : Account::kSurfaces,
            walk_.light.throughput * (Spectrum(1.0F) - on.by_law));
        add(Account::kNormals, walk_.light.throughput * (on.by_law - on.with_normal));
    }

    bool step() {
        const Spectrum begun = walk_.light.throughput;
        const MaterialId medium = walk_.media.current();
        const Point from = walk_.ray.origin;
        Vertex vertex;
        if (!find_next_vertex(stage_, walk_, vertex)) {
            Point end = from;
            const Account account = end_of_ray(end);
            keep_in_medium(begun, medium, end - from);
            add(account, walk_.light.throughput);
            return false;
        }
        keep_in_medium(begun, medium, vertex.at.position - from);
        if (vertex.is_lamp()) {
            add(Account::kLamps, walk_.light.throughput);
            return false;
        }
        keep_at(vertex);
        const float u = random_.next();
        const float v = random_.next();
        const Vec3 numbers(u, v, random_.next());
        if (scatter(stage_, walk_, vertex, Carrying::kFlux, numbers, random_) !=
            ScatterResult::kEnded)
            return true;
        const bool is_cut = walk_.edge > stage_.max_bounces + 1 || walk_.passed >= kMostPassed;
        if (is_cut) add(Account::kCut, walk_.light.throughput);
        return false;
    }

    const Stage& stage_;
    PassAccounts& accounts_;
    RandomStream random_;
    RandomStream draws_;  // for the laws
    size_t fixture_;
    uint32_t index_;
    Walk walk_;
    double lumens_ = 0;  // carried by the walk
};

// Light walks of each lamp: a multiple of eight, so that each wavelength is the hero of as many.
std::vector<int> share_walks(const std::vector<Emitter>& emitters, double lumens, int walks) {
    std::vector<int> shares;
    for (const Emitter& emitter : emitters) {
        const double share = walks * emitter.lumens() / lumens;
        shares.push_back(kSpectrumSize * static_cast<int>(std::ceil(share / kSpectrumSize)));
    }
    return shares;
}

PassAccounts count_pass(const Setup& setup, const PassWalks& walks, uint64_t seed, uint32_t pass) {
    const PassMaterials materials(setup.materials, make_pass_wavelengths(seed, pass));
    const Stage stage = setup.stage(materials, walks, seed, pass);
    PassAccounts accounts;
    for (size_t f = 0; f < setup.emitters.size(); ++f) {
        for (int i = 0; i < walks.light[f]; ++i) {
            CountedWalk(stage, f, static_cast<uint32_t>(i), accounts).follow();
        }
    }
    return accounts;
}

}  // namespace

LightAccounts::LightAccounts(const Scene& scene, int passes, int walks, uint64_t seed)
    : passes_(static_cast<size_t>(passes)) {
    const World world(scene);
    Setup setup(scene, world);
    for (const Emitter& emitter : setup.emitters) lumens_ += emitter.lumens();
    PassWalks shares = no_light_walks(setup);
    shares.light = share_walks(setup.emitters, lumens_, walks);
    setup.max_bounces = kMaxBounces;
    parallel_blocks(passes, 1, [&](int64_t first, int64_t last) {
        for (auto p = static_cast<uint32_t>(first); p < static_cast<uint32_t>(last); ++p) {
            passes_[p] = count_pass(setup, shares, seed, p);
        }
    });
}

Estimate LightAccounts::sum(std::initializer_list<Account> accounts) const {
    const auto n = static_cast<double>(passes_.size());
    double sum = 0;
    double squares = 0;
    for (const PassAccounts& pass : passes_) {
        double of_pass = 0;
        for (const Account account : accounts) of_pass += pass.lumens[static_cast<size_t>(account)];
        sum += of_pass;
        squares += of_pass * of_pass;
    }
    const double mean = sum / n;
    return {mean, std::sqrt(std::max(0.0, squares / n - mean * mean) / (n - 1))};
}

uint32_t LightAccounts::nonfinite() const {
    uint32_t sum = 0;
    for (const PassAccounts& pass : passes_) sum += pass.nonfinite;
    return sum;
}

}  // namespace dapple::published
