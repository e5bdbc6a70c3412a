// The least window that SDL can show, its memory filled with one colour: the yardstick for the first frame of
// ours (.ci/window-figures). Closes on SIGTERM, as ours does.
#include <SDL.h>

int main(int, char**) {
  if (SDL_Init(SDL_INIT_VIDEO) != 0) return 1;
  SDL_SetHint(SDL_HINT_FRAMEBUFFER_ACCELERATION, "0");
  SDL_Window* window = SDL_CreateWindow("Bare", SDL_WINDOWPOS_UNDEFINED, SDL_WINDOWPOS_UNDEFINED, 1440, 900,
                                        SDL_WINDOW_RESIZABLE);
  SDL_Surface* screen = window ? SDL_GetWindowSurface(window) : nullptr;
  if (!screen) return 1;
  SDL_FillRect(screen, nullptr, SDL_MapRGB(screen->format, 40, 60, 80));
  SDL_UpdateWindowSurface(window);
  SDL_Event event;
  while (SDL_WaitEvent(&event) && event.type != SDL_QUIT)
    if (event.type == SDL_WINDOWEVENT) {
      screen = SDL_GetWindowSurface(window);
      SDL_FillRect(screen, nullptr, SDL_MapRGB(screen->format, 40, 60, 80));
      SDL_UpdateWindowSurface(window);
    }
  SDL_Quit();
  return 0;
}
