#include "sim/witness/evidence.hpp"

#include <algorithm>

namespace shutlane {

namespace {

bool holds(const std::vector<int>& list, int number) {
  return std::find(list.begin(), list.end(), number) != list.end();
}

void take_out(std::vector<int>& list, int number) { std::erase(list, number); }

}  // namespace

ArcSet stands(const std::vector<PortSets>& ports, const Evidence& evidence, const std::vector<int>& but_for) {
  ArcSet set = evidence.before;
  for (const PortSets& p : ports) {
    if (holds(but_for, p.cylinder)) continue;
    if (holds(evidence.looks.shut, p.cylinder)) set = set.intersected(p.if_shut);
    if (holds(evidence.looks.open, p.cylinder)) set = set.intersected(p.if_open);
  }
  if (evidence.looks.mark) set = set.intersected(mark_arcs(*evidence.looks.mark));
  return set;
}

bool witnessed(const std::vector<PortSets>& ports, const Evidence& evidence, int cylinder,
               const WitnessRule& rule) {
  const PortSets* port = sets_of(ports, cylinder);
  if (port == nullptr || stands(ports, evidence).empty()) return false;
  Evidence others = evidence;
  if (!rule.trust_before) others.before = ArcSet::all();
  if (!port->sure.covers(stands(ports, others, {cylinder}))) return false;
  if (rule.spare_looks < 1) return true;
  for (const PortSets& p : ports)
    if ((holds(evidence.looks.shut, p.cylinder) || holds(evidence.looks.open, p.cylinder)) &&
        !port->sure.covers(stands(ports, others, {cylinder, p.cylinder})))
      return false;
  if (evidence.looks.mark) {
    others.looks.mark.reset();
    if (!port->sure.covers(stands(ports, others, {cylinder}))) return false;
  }
  return true;
}

std::vector<int> all_witnessed(const std::vector<PortSets>& ports, const Evidence& evidence,
                               const WitnessRule& rule) {
  std::vector<int> found;
  for (const PortSets& p : ports)
    if (witnessed(ports, evidence, p.cylinder, rule)) found.push_back(p.cylinder);
  return found;
}

std::vector<Mend> mends(const std::vector<PortSets>& ports, const Evidence& evidence) {
  std::vector<Mend> found;
  if (!stands(ports, evidence).empty()) return found;
  for (const PortSets& p : ports) {
    const bool shut = holds(evidence.looks.shut, p.cylinder), open = holds(evidence.looks.open, p.cylinder);
    if (!shut && !open) continue;
    Evidence changed = evidence;
    take_out(changed.looks.shut, p.cylinder);
    take_out(changed.looks.open, p.cylinder);
    Mend mend{p.cylinder, shut, !stands(ports, changed).empty(), false};
    (shut ? changed.looks.open : changed.looks.shut).push_back(p.cylinder);
    mend.by_other_answer = !stands(ports, changed).empty();
    if (mend.by_leaving_out || mend.by_other_answer) found.push_back(mend);
  }
  if (evidence.looks.mark) {
    Evidence changed = evidence;
    changed.looks.mark.reset();
    if (!stands(ports, changed).empty()) found.push_back({0, false, true, false});
  }
  return found;
}

}  // namespace shutlane
