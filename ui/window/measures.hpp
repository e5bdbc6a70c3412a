#pragma once
namespace shutlane {
enum class Measures { metric, us };
}
