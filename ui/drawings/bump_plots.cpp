#include "ui/drawings/bump_plots.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "ui/drawings/scale.hpp"
#include "ui/drawings/text.hpp"

namespace shutlane::bump_plots {

Range range_of(const BumpRecord& record, const std::vector<Value>& values, double least_span) {
  Range r{0, 0};  // nothing is shown without its zero
  for (const BumpSample& s : record.samples)
    for (const Value& value : values) {
      r.low = std::min(r.low, value(s));
      r.high = std::max(r.high, value(s));
    }
  const double span = std::max(least_span, r.high - r.low);
  r.high = std::max(r.high + 0.12 * span, r.low + 1.12 * span);
  if (r.low < 0) r.low -= 0.08 * span;
  return r;
}

std::vector<Point> points_of(const CurvesPen& pen, Plot plot, const Range& r, const Value& value) {
  const double near = 0.05 * pen.u;
  std::vector<Point> line;
  const auto& samples = pen.view.record->samples;
  for (size_t i = 0; i < samples.size(); ++i) {
    const Point p{pen.g.x_of(plot, samples[i].time_s), pen.y_of(plot, r, value(samples[i]))};
    const bool last = i + 1 == samples.size();
    if (line.empty() || last || std::abs(p.x - line.back().x) > near || std::abs(p.y - line.back().y) > near)
      line.push_back(p);
  }
  return line;
}

void draw_grid(const CurvesPen& pen, Plot plot, const Range& r) {
  const Box& box = pen.g.plots[plot];
  const double u = pen.u;
  const double press_x = pen.g.x_of(plot, pen.view.record->press_s);
  pen.canvas.fill_box({box.x, box.y, press_x - box.x, box.h}, pen.colours.crank_soft);
  const double time_step = nice_step(pen.g.to_s, std::max(2, static_cast<int>(box.w / (3.6 * u))));
  const bool foot = plot == Plot::turned || plot == Plot::torque;
  for (double t = 0; t <= pen.g.to_s * (1 + 1e-9); t += time_step) {
    const double x = pen.g.x_of(plot, t);
    const Point line[] = {{x, box.y}, {x, box.bottom()}};
    pen.canvas.line(line, {pen.colours.grid, pen.hair()});
    if (foot)
      pen.canvas.text({x, box.bottom() + 1.05 * u}, fmt::format("{:.6g} s", t), 0.9 * u, pen.colours.dim_text,
                      Align::centre);
  }
  double step = nice_step(r.high - r.low, std::max(3, static_cast<int>(box.h / (1.4 * u))));
  if (step > r.high && -step < r.low)  // a scale needs more than its zero
    step = nice_step(std::max(r.high, -r.low), 4);
  for (double k = std::ceil(r.low / step); k * step <= r.high; k += 1) {
    const double y = pen.y_of(plot, r, k * step);
    const Point line[] = {{box.x, y}, {box.right(), y}};
    pen.canvas.line(line,
                    {k == 0 ? pen.colours.dim_text : pen.colours.grid, k == 0 ? pen.thin() : pen.hair()});
    pen.canvas.text({box.x - 0.4 * u, y + kHalfCapital * 0.9 * u},
                    fmt::format("{}{:.6g}", k < 0 ? "\u2212" : "", std::abs(k * step)), 0.9 * u,
                    pen.colours.dim_text, Align::right);
  }
}

void draw_head(const CurvesPen& pen, Plot plot, const std::vector<HeadPart>& parts) {
  const Box& box = pen.g.plots[plot];
  const double room = box.right() - box.x, y = box.y - 0.45 * pen.u;
  double size = pen.u;
  const auto width = [&](double at_size) {
    double sum = 0;
    for (const HeadPart& p : parts)
      sum += pen.canvas.text_width(p.words, at_size, p.weight) + (p.sample ? 1.9 : 0.6) * at_size;
    return sum;
  };
  if (const double w = width(size); w > room) size *= room / w;
  double x = box.x;
  for (const HeadPart& p : parts) {
    if (p.sample) {
      const Point line[] = {{x + 0.2 * size, y - kHalfCapital * size},
                            {x + 1.4 * size, y - kHalfCapital * size}};
      pen.canvas.line(line, *p.sample);
      x += 1.6 * size;
    }
    pen.canvas.text({x, y}, p.words, size, p.colour, Align::left, p.weight);
    x += pen.canvas.text_width(p.words, size, p.weight) + (p.sample ? 0.3 : 0.6) * size;
  }
}

void draw_now(const CurvesPen& pen, Plot plot, const Range& r, const std::vector<Value>& values) {
  if (!pen.view.now_s) return;
  const Box& box = pen.g.plots[plot];
  const BumpSample now = sample_at(*pen.view.record, *pen.view.now_s);
  const double x = pen.g.x_of(plot, std::min(*pen.view.now_s, pen.g.to_s));
  const Point line[] = {{x, box.y}, {x, box.bottom()}};
  pen.canvas.line(line, {pen.colours.what_if, pen.thin()});
  for (const Value& value : values) {
    const Point at{x, pen.y_of(plot, r, value(now))};
    pen.canvas.fill_circle(at, 0.32 * pen.u, pen.colours.panel);
    pen.canvas.stroke_circle(at, 0.32 * pen.u, {pen.colours.what_if, 1.3 * pen.thin()});
  }
}

std::string number(double value, int digits) {
  const double tens = std::pow(10.0, digits);
  const double rounded = std::round(value * tens) / tens + 0.0;
  return fmt::format("{}{:.{}f}", rounded < 0 ? "\u2212" : "", std::abs(rounded), digits);
}

}  // namespace shutlane::bump_plots
