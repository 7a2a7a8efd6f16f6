import { VitePWA } from 'vite-plugin-pwa'

/** The page for days without network. A newer version waits until the person agrees to it. */
export const offline = VitePWA({
  registerType: 'prompt',
  // The page registers it itself, without an inline script.
  injectRegister: false,
  // Pictures for the home screen are asked for when it is installed, and never again.
  includeManifestIcons: false,
  workbox: { clientsClaim: true, globPatterns: ['**/*.{js,css,html,svg}'] },
  manifest: {
    id: './',
    name: 'Trainwright: change gears for the thread in hand',
    short_name: 'Trainwright',
    description: 'Which change gears, on which studs, cut this thread?',
    lang: 'en-GB',
    display: 'standalone',
    background_color: '#d5dadb',
    theme_color: '#143a5c',
    icons: [
      { src: 'icon.svg', sizes: 'any', type: 'image/svg+xml' },
      { src: 'icon-192.png', sizes: '192x192', type: 'image/png' },
      { src: 'icon-512.png', sizes: '512x512', type: 'image/png' },
      { src: 'icon-maskable-512.png', sizes: '512x512', type: 'image/png', purpose: 'maskable' },
    ],
  },
})
