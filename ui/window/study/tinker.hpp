#pragma once
// Trying other numbers on an engine. What the file says is kept; the last engine that could be built stays
// while the numbers on the knobs make none.
#include <memory>
#include <string>
#include <vector>

#include "sim/mechanism/engine.hpp"
#include "ui/window/document.hpp"

namespace shutlane {

enum class KnobKind {
  opens,
  closes,
  earlier,         ///< the whole cam against the file
  may_be_earlier,  ///< the far end of the phaser's range
  may_be_later,    ///< its near end, as a positive number
  clearance,
  lift,
  timing,
  bank_angle,
  rod,
  offset
};

struct Knob {
  KnobKind kind = KnobKind::opens;
  size_t valve = 0;  ///< index into EngineSpec::valves; 0 where the knob is not of a valve
  std::string label;
  bool degrees = true;  ///< otherwise millimetres
  double low = 0, high = 0, step = 1;
  double value = 0, in_file = 0;
  bool by_hand = false;  ///< changed, and not only moved along by another knob
  bool changed() const;
};

/// A value of the knob in the chosen measures: "12°", "9.7 mm", "0.382 in"; a clearance to a ten-thousandth.
std::string knob_in_words(const Knob& knob, double value, Measures measures);

struct KnobChange {
  std::string label, before, after;
};

class Tinker {
 public:
  Tinker() = default;
  explicit Tinker(const Engine& engine);

  const EngineSpec& spec() const { return spec_; }  ///< as the knobs stand
  const EngineSpec& file() const { return file_; }
  const std::shared_ptr<const Engine>& engine() const { return good_; }  ///< the last that could be built
  const std::vector<Mistake>& mistakes() const { return mistakes_; }     ///< of the knobs as they stand

  std::vector<Knob> knobs() const;
  void set(KnobKind kind, size_t valve, double value);  ///< taken to the knob's range
  /// When banks, rod or offset change: true leaves the crank as it is, so that firing intervals change; false
  /// leaves the intervals and lets the crank pins follow.
  bool keep_crank() const { return keep_crank_; }
  void set_keep_crank(bool keep);
  void back_to_file();
  bool changed() const;
  /// What was changed by hand, and the firing intervals that follow; empty: as the file says.
  std::vector<KnobChange> changes(Measures measures = Measures::metric) const;

 private:
  double value_of(const EngineSpec& spec, KnobKind kind, size_t valve) const;
  void put(KnobKind kind, size_t valve, double value);
  bool changed_itself(const Knob& knob) const;
  void refire();
  void rebuild();

  EngineSpec file_, spec_;
  std::shared_ptr<const Engine> in_file_, good_;
  std::vector<Mistake> mistakes_;
  std::vector<double> earlier_deg_;  ///< of each valve: the whole cam against the file
  bool keep_crank_ = true;
};

}  // namespace shutlane
