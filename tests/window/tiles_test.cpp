// A picture brought up to date by tiles against the same frame drawn whole, bit for bit. The two share the
// filling of single triangles; areas known in closed form watch over that (raster_test.cpp).
#include <random>

#include "tests/window/harness.hpp"
#include "tests/window/tile_watch.hpp"

namespace shutlane {
namespace {

unsigned long count_from(const char* name, unsigned long otherwise) {
  const char* text = std::getenv(name);
  return text ? std::strtoul(text, nullptr, 10) : otherwise;
}

/// Draw lists of any shapes: slivers, huge triangles, texts, translucent boxes, several clips.
class Scribbler {
 public:
  explicit Scribbler(unsigned long seed) : random_(seed) {}

  int pick(int n) { return static_cast<int>(random_() % static_cast<unsigned long>(n)); }
  float number(float a, float b) { return std::uniform_real_distribution<float>(a, b)(random_); }
  ImVec2 point() {
    const float far = pick(40) == 0 ? 3e5f : pick(8) == 0 ? 3000.0f : 0.0f;
    const ImVec2 p{number(-40 - far, 440 + far), number(-40 - far, 340 + far)};
    return pick(3) ? p : ImVec2{std::round(p.x), std::round(p.y)};
  }
  ImU32 colour() {
    const ImU32 c = static_cast<ImU32>(random_());
    return pick(2) ? c | 0xff000000u : c;
  }

  void shape(ImDrawList& list) {
    const ImVec2 a = point(), b = point();
    switch (pick(8)) {
      case 0:
        return list.AddRectFilled(a, b, colour(), pick(2) ? 0.0f : 9.0f);
      case 1:
        return list.AddRectFilledMultiColor(a, b, colour(), colour(), colour(), colour());
      case 2:
        return list.AddTriangleFilled(a, b, point(), colour());
      case 3:
        return list.AddText(nullptr, number(8, 60), a, colour(), "shut 12.5");
      case 4:
        return list.AddCircle(a, number(1, 150), colour(), 0, number(0.5f, 6));
      case 5: {  // as written by hand: any corners, any colours, any places in the texture
        list.PrimReserve(3, 3);
        for (int k = 0; k < 3; ++k)
          list.PrimVtx(point(), pick(2) ? ImVec2{number(0, 1), number(0, 1)} : ImVec2{0.1f, 0.1f}, colour());
        return;
      }
      case 6:
        return list.AddRect(a, b, colour(), 0, 0, number(0.5f, 5));
      default:
        return list.AddLine(a, b, colour(), number(0.5f, 5));
    }
  }

  struct Step {
    unsigned long seed;
    bool clip;
  };
  std::vector<Step> steps;
  void change() {
    const int much = pick(4);
    if (much == 0) steps.clear();
    for (int k = much == 0 ? pick(60) : 1 + pick(3); k > 0; --k) {
      const size_t at = steps.empty() ? 0 : static_cast<size_t>(pick(static_cast<int>(steps.size())));
      const int how = pick(3);
      if (how == 0 && !steps.empty())
        steps.erase(steps.begin() + static_cast<ptrdiff_t>(at));
      else
        steps.insert(steps.begin() + static_cast<ptrdiff_t>(at), {random_(), pick(6) == 0});
    }
  }
  void draw(ImDrawList& list) {
    for (const Step& step : steps) {
      Scribbler hand(step.seed);
      if (step.clip) {
        const ImVec2 a = hand.point(), b = hand.point();
        list.PushClipRect({std::min(a.x, b.x), std::min(a.y, b.y)}, {std::max(a.x, b.x), std::max(a.y, b.y)},
                          true);
      }
      hand.shape(list);
      if (step.clip) list.PopClipRect();
    }
  }
  /// Changes one thing alone: a place in the texture, a colour, a corner or a clip.
  void nudge(ImDrawList& list) {
    if (list.VtxBuffer.empty()) return;
    ImDrawVert& v = list.VtxBuffer[pick(list.VtxBuffer.Size)];
    switch (pick(4)) {
      case 0:
        v.uv = {number(0, 1), number(0, 1)};
        break;
      case 1:
        v.col ^= 1u << pick(32);
        break;
      case 2:
        v.pos.x += number(-3, 3);
        break;
      default:
        list.CmdBuffer[pick(list.CmdBuffer.Size)].ClipRect.z -= number(1, 60);
        break;
    }
  }

 private:
  std::mt19937_64 random_;
};

class OwnContext {
 public:
  OwnContext() : before_(ImGui::GetCurrentContext()), context_(ImGui::CreateContext()) {
    ImGui::SetCurrentContext(context_);
    ImGui::GetIO().IniFilename = nullptr;
    ImGui::GetIO().BackendFlags |= ImGuiBackendFlags_RendererHasVtxOffset;
  }
  ~OwnContext() {
    ImGui::DestroyContext(context_);
    ImGui::SetCurrentContext(before_);
  }

 private:
  ImGuiContext *before_, *context_;
};

TEST(Tiles, RandomListsComeOutAsDrawnWhole) {
  const unsigned long seed = count_from("SHUTLANE_SEED", 5), trials = count_from("SHUTLANE_TRIALS", 600);
  OwnContext own;
  ImGuiIO& io = ImGui::GetIO();
  io.Fonts->AddFontDefault();
  io.Fonts->Build();
  Scribbler scribbler(seed);
  Raster kept, whole;
  int width = 0, height = 0;
  ImU32 background = 0xff203040u;
  size_t partly = 0;
  for (unsigned long trial = 0; trial < trials; ++trial) {
    if (trial % 50 == 0) {
      width = 1 + scribbler.pick(400), height = 1 + scribbler.pick(300);
      kept.resize(width, height), whole.resize(width, height);
    }
    if (trial % 29 == 0) background = scribbler.colour();
    if (trial % 37 == 0) {
      if (trial) {  // another texture
        io.Fonts->Clear();
        ImFontConfig config;
        config.SizePixels = scribbler.number(9, 30);
        io.Fonts->AddFontDefault(&config);
        io.Fonts->Build();
      }
      kept.use_fonts(*io.Fonts), whole.use_fonts(*io.Fonts);
    }
    io.DisplaySize = {static_cast<float>(width), static_cast<float>(height)};
    ImGui::NewFrame();
    const bool nudged = trial % 3 != 0;
    if (!nudged) scribbler.change();
    scribbler.draw(*ImGui::GetForegroundDrawList());
    ImGui::Render();
    if (nudged && ImGui::GetDrawData()->CmdListsCount > 0)
      scribbler.nudge(*ImGui::GetDrawData()->CmdLists[ImGui::GetDrawData()->CmdListsCount - 1]);
    const std::vector<PixelBox> parts = kept.update(*ImGui::GetDrawData(), background);
    whole.draw(*ImGui::GetDrawData(), background);
    const long at = first_difference(kept, whole);
    ASSERT_EQ(at, -1) << "trial " << trial << ", pixel " << at % width << "," << at / width
                      << "; SHUTLANE_SEED=" << seed;
    long area = 0;
    for (const PixelBox& p : parts) area += static_cast<long>(p.x1 - p.x0) * (p.y1 - p.y0);
    partly += area > 0 && area < static_cast<long>(width) * height ? 1u : 0u;
  }
  EXPECT_GT(partly, trials / 10);  // else the test would be of whole redraws
}

/// Nothing new: nothing is drawn. One word moved by a pixel: that place alone.
TEST(Tiles, OnlyWhatChangedIsDrawn) {
  OwnContext own;
  ImGuiIO& io = ImGui::GetIO();
  io.DisplaySize = {640, 320};
  io.Fonts->Build();
  Raster raster;
  raster.resize(640, 320);
  raster.use_fonts(*io.Fonts);
  auto parts = [&](float x) {
    ImGui::NewFrame();
    ImGui::GetBackgroundDrawList()->AddRectFilled({0, 0}, {640, 320}, 0xff404040u, 30);
    ImGui::GetBackgroundDrawList()->AddText({x, 100}, 0xffffffffu, "shut");
    ImGui::Render();
    return raster.update(*ImGui::GetDrawData(), 0xff000000u);
  };
  EXPECT_EQ(parts(70).size(), 10u);  // ten rows of tiles, each in one part
  EXPECT_TRUE(parts(70).empty());
  const std::vector<PixelBox> moved = parts(71);
  ASSERT_EQ(moved.size(), 1u);
  EXPECT_EQ(moved[0].x0, 64);
  EXPECT_EQ(moved[0].x1, 128);
  EXPECT_EQ(moved[0].y0, 96);
  EXPECT_EQ(moved[0].y1, 128);
}

/// The window itself, through random events: every bench and page, sizes, themes, letters of new sizes.
TEST(Tiles, FramesOfTheWindowComeOutAsDrawnWhole) {
  const unsigned long seed = count_from("SHUTLANE_SEED", 5), trials = count_from("SHUTLANE_TRIALS", 150);
  std::mt19937_64 random(seed);
  auto pick = [&](int n) { return static_cast<int>(random() % static_cast<unsigned long>(n)); };
  Harness h(1000, 640, false);
  h.open("v8-cross-plane");
  TileWatch watch;
  Viewer::Size size{1000, 640, 0};
  for (unsigned long trial = 0; trial < trials; ++trial) {
    switch (pick(8)) {
      case 0:
        h.session.queue(ShowBench{static_cast<Bench>(pick(3))});
        break;
      case 1:
        if (pick(4) == 0) size = {700 + pick(600), 450 + pick(300), 0};
        break;
      case 2: {
        const KeyPress key{static_cast<Key>(1 + pick(static_cast<int>(Key::z)))};
        h.viewer.input.push(KeyChanged{key, true});
        h.viewer.input.push(KeyChanged{key, false});
        break;
      }
      case 3:
      case 4:
        h.session.queue(MoveWhatIf{pick(7200) / 10.0});
        break;
      default: {
        const double x = pick(size.width_px), y = pick(size.height_px);
        h.viewer.input.push(PointerMoved{x, y});
        if (pick(2) == 0) {
          h.viewer.input.push(ButtonChanged{0, true, x, y});
          h.viewer.input.push(ButtonChanged{0, false, x, y});
        }
        break;
      }
    }
    h.session.apply();
    for (int frame = 1 + pick(3); frame > 0; --frame) {
      h.viewer.frame(h.session, size, pick(3) ? 1.0 / 60 : 0.7);
      const long at = watch.first_difference(h.viewer, h.session);
      ASSERT_EQ(at, -1) << "trial " << trial << ", pixel " << at % size.width_px << "," << at / size.width_px
                        << "; SHUTLANE_SEED=" << seed;
    }
  }
}

}  // namespace
}  // namespace shutlane
