#include "ui/window/items.hpp"

namespace shutlane {

void Items::clear() {
  items.clear();
  texts.clear();
}

const Item* Items::by_label(std::string_view label) const {
  for (const Item& item : items)
    if (item.label == label) return &item;
  return nullptr;
}

const Item* Items::by_id(std::string_view id) const {
  for (const Item& item : items)
    if (item.id == id) return &item;
  return nullptr;
}

}  // namespace shutlane
