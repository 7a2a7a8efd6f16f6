import { defineConfig, type Plugin } from 'vite'

/** Nothing from elsewhere, nothing inline. Only what is built: the development server needs inline styles. */
const policy = [
  "default-src 'none'",
  "script-src 'self'",
  "worker-src 'self'",
  "style-src 'self'",
  "img-src 'self'",
  "connect-src 'self'",
  "manifest-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
].join('; ')

const contentSecurityPolicy: Plugin = {
  name: 'content-security-policy',
  apply: 'build',
  transformIndexHtml: () => [
    { tag: 'meta', attrs: { 'http-equiv': 'Content-Security-Policy', content: policy }, injectTo: 'head-prepend' },
  ],
}

export default defineConfig({
  // Any folder of any server will do.
  base: './',
  plugins: [contentSecurityPolicy],
  build: { modulePreload: { polyfill: false } },
  // The search runs in a module worker, which becomes a chunk of its own.
  worker: { format: 'es' },
})
