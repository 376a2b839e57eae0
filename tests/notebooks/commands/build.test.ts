import { cp, mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { buildNotebooks, distFolder } from "../../../notebooks/commands/build.ts";
import { notebooks } from "../../../notebooks/questions/list.ts";

const starts = new Error("A build starts.");

describe("building the notebooks", () => {
  let folder: string;
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), "build-"));
    await buildNotebooks();
    await cp(distFolder, folder, { recursive: true });
  });
  afterAll(() => rm(folder, { recursive: true }));

  /** No build is waited for: that one would start is enough. */
  const built = () =>
    buildNotebooks({
      folder,
      onStart() {
        throw starts;
      },
    });

  it("makes an index of all questions and a page that shows each, which needs no other file", async () => {
    const index = await readFile(join(folder, "index.html"), "utf8");
    expect(await readdir(folder)).toEqual(expect.arrayContaining(notebooks.map(({ name }) => `${name}.html`)));
    for (const { name, question } of notebooks) {
      expect(index).toContain(`<a href="${name}.html">${question}</a>`);
      const page = await readFile(join(folder, `${name}.html`), "utf8");
      expect(page.slice(0, 1000)).toContain(`<title>${question}</title>`);
      expect(page.slice(0, 1000)).toContain(`data-notebook="${name}"`);
      expect(page).not.toMatch(/<script[^>]* src=|<link[^>]* rel="stylesheet"/);
    }
  });

  it("does nothing where nothing has changed", async () => {
    await expect(built()).resolves.toBeUndefined();
  });

  it.each(["index.html", `${notebooks[0]?.name}.html`])(
    "builds again where %s is missing, cut off or old",
    async (name) => {
      const path = join(folder, name);
      const page = await readFile(path, "utf8");
      await rm(path);
      await expect(built()).rejects.toBe(starts);
      await writeFile(path, page.slice(0, -100));
      await expect(built()).rejects.toBe(starts);
      await writeFile(path, page.replace(/made of [0-9a-f]{4}/, "made of ffff"));
      await expect(built()).rejects.toBe(starts);
      await writeFile(path, page);
      await expect(built()).resolves.toBeUndefined();
    },
  );
});
