// What pilot walks have learnt about the way of one lamp's light through glass to the meters.
#pragma once

#include <vector>

#include "render/prepare/glass_windows.h"
#include "render/prepare/meter_pilot.h"

namespace dapple {

class MeterAim {
  public:
    MeterAim(int fixture, GlassWindows glass);

    int fixture() const { return fixture_; }
    // The noise that one walk for the meters leaves, in the mean over the meters' relative errors;
    // 0: no pilot walk reached a meter.
    double need() const { return need_; }

    // The aim of the next pilot.
    Aim pilot_aim() const;
    // Splits the cells from which many walks fell on receptors, and finds every cell's share.
    // `readings`: of all meters, lx.
    void learn(const Stage& stage,
               const std::vector<FallenWalk>& fallen,
               const std::vector<double>& readings);
    // `own`, with `share_at_meters` of all walks aimed by what was learnt.
    Aim added_to(const Aim& own, double share_at_meters) const;

  private:
    // The start of a walk that fell on a receptor.
    struct Start {
        int cell = 0;
        Vec2 at{0};         // on the cell's window, in units of the window's own cells
        double square = 0;  // its term of the sum in E72
    };
    std::vector<Start> find_starts(const Stage& stage,
                                   const std::vector<FallenWalk>& fallen,
                                   const std::vector<double>& readings) const;
    void split_cells(std::vector<Start>& starts);
    void split(int cell);
    std::vector<double> sum_squares(const std::vector<Start>& starts) const;
    std::vector<double> even_shares(const std::vector<Start>& starts) const;
    std::vector<double> find_shares(const std::vector<Start>& starts);

    int fixture_ = 0;
    GlassWindows glass_;
    AimCells cells_;
    std::vector<double> over_glass_;  // shares by the flux into glass; their sum is 1
    std::vector<double> at_meters_;   // shares learnt; their sum is 1; empty: none
    double need_ = 0;
};

}  // namespace dapple
