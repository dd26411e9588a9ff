# One node of Halflap: the server with an embedded SQLite file, and the built page that it serves.

# The full image has the compiler that better-sqlite3 needs where its prebuilt binary can't be fetched.
FROM node:22-bookworm AS source
WORKDIR /halflap
COPY . .

FROM source AS page
RUN npm run build

FROM source AS packages
RUN npm ci --omit=dev --workspace @halflap/server --workspace @halflap/cli

FROM node:22-bookworm-slim
WORKDIR /halflap
ENV NODE_ENV=production \
    HALFLAP_HOST=0.0.0.0 \
    HALFLAP_PORT=4321 \
    HALFLAP_DATA=/var/lib/halflap \
    HALFLAP_WEB=/halflap/apps/web/dist
COPY --from=packages /halflap/package.json /halflap/LICENSE ./
COPY --from=packages /halflap/node_modules ./node_modules
COPY --from=packages /halflap/packages ./packages
COPY --from=page /halflap/packages/fitter/dist ./packages/fitter/dist
COPY --from=packages /halflap/apps/server ./apps/server
COPY --from=packages /halflap/apps/cli ./apps/cli
COPY --from=page /halflap/apps/web/dist ./apps/web/dist
RUN mkdir -p /var/lib/halflap && chown node:node /var/lib/halflap
USER node
VOLUME /var/lib/halflap
EXPOSE 4321
HEALTHCHECK --interval=30s --timeout=3s --start-period=15s \
  CMD ["node", "-e", "fetch(`http://127.0.0.1:${process.env.HALFLAP_PORT}/healthz`).then((answer) => process.exit(answer.ok ? 0 : 1), () => process.exit(1))"]
# The server file itself, so that SIGTERM reaches it and it can stop in order.
CMD ["node", "--import", "tsx", "apps/server/src/main.ts"]
