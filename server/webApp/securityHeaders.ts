// The headers every answer carries: a page runs our own files and nothing else, is framed by nobody,
// and talks to this server alone. By helmet, with what only makes sense under TLS taken out.

import helmet from 'helmet'

/** `socketOrigins` as `ws://host:port`; a page may open its socket there and nowhere else. */
export const securityHeaders = (socketOrigins: readonly string[]) =>
  helmet({
    contentSecurityPolicy: {
      useDefaults: false,
      directives: {
        defaultSrc: ["'none'"],
        scriptSrc: ["'self'"],
        styleSrc: ["'self'"],
        imgSrc: ["'self'"],
        fontSrc: ["'self'"],
        mediaSrc: ["'self'"],
        manifestSrc: ["'self'"],
        connectSrc: ["'self'", ...socketOrigins],
        baseUri: ["'none'"],
        formAction: ["'none'"],
        frameAncestors: ["'none'"],
      },
    },
    // On this machine the pages come over plain HTTP; the first says "never again" to that.
    strictTransportSecurity: false,
    referrerPolicy: { policy: 'no-referrer' },
  })
