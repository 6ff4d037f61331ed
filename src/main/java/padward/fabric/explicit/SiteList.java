package padward.fabric.explicit;

import it.unimi.dsi.fastutil.ints.Int2ObjectMap;
import it.unimi.dsi.fastutil.ints.Int2ObjectOpenHashMap;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import padward.fabric.Fabric;
import padward.fabric.PinDirection;
import padward.fabric.SitePin;
import padward.fabric.SiteView;
import padward.fabric.array.ArrayGrowth;
import padward.fabric.array.InternedRuns;
import padward.fabric.compact.CompactIn;
import padward.fabric.compact.CompactOut;
import padward.fabric.compact.Damaged;

/**
 * The sites of an explicit fabric, tile by tile: of each its model and its first pin. Tiles with
 * like sites share one run; 8 bytes a tile and 8 for each site of each different tile.
 */
final class SiteList {
    /**
     * What sites of one model have in common.
     *
     * @param part name of the part, {@code ""} for sites without parts
     * @param kind their kind
     * @param tileSteps the numbers of the other tiles that they extend over, less that of their own
     * @param accepts kinds of cell that fit on them
     * @param pins their pins
     */
    record Model(
            String part,
            String kind,
            List<Integer> tileSteps,
            List<String> accepts,
            List<SitePin> pins) {
        Model {
            tileSteps = List.copyOf(tileSteps);
            accepts = List.copyOf(accepts);
            pins = List.copyOf(pins);
        }
    }

    private final List<Model> models;
    private final List<String> partNames;
    private final TileOffsets sites;
    private final TileOffsets vertices;
    private final int[] runOfTile;

    /** For each place in a run the site's model, and its first pin's place in the tile. */
    private final int[] words;

    /**
     * @param models all models
     * @param modelOf for each site as it was added the number of its model
     * @param firstPinOf for each that has pins the first of them, in the vertices' final numbers
     * @param order those sites in the order in which they are numbered now
     */
    SiteList(
            List<Model> models,
            int[] modelOf,
            int[] firstPinOf,
            int[] order,
            TileOffsets sites,
            TileOffsets vertices) {
        this.models = models;
        this.partNames = partNames(models);
        this.sites = sites;
        this.vertices = vertices;
        this.runOfTile = new int[sites.tiles()];
        InternedRuns runs = new InternedRuns();
        int[] own = new int[16];
        for (int tile = 0; tile < runOfTile.length; tile++) {
            int size = sites.size(tile);
            own = ArrayGrowth.room(own, 0, 2 * size);
            int behind = 0;
            for (int i = 0; i < size; i++) {
                int number = order[sites.first(tile) + i];
                int pins = models.get(modelOf[number]).pins().size();
                // a site without pins has none that says where it is: after the one before
                int place = pins == 0 ? behind : firstPinOf[number] - vertices.first(tile);
                own[2 * i] = modelOf[number];
                own[2 * i + 1] = place;
                behind = place + pins;
            }
            runOfTile[tile] = runs.intern(own, 0, 2 * size);
        }
        words = runs.toArray();
    }

    private SiteList(
            List<Model> models,
            TileOffsets sites,
            TileOffsets vertices,
            int[] runOfTile,
            int[] words) {
        this.models = models;
        this.partNames = partNames(models);
        this.sites = sites;
        this.vertices = vertices;
        this.runOfTile = runOfTile;
        this.words = words;
    }

    private static List<String> partNames(List<Model> models) {
        return models.stream().map(Model::part).filter(p -> !p.isEmpty()).distinct().toList();
    }

    void write(CompactOut out) throws IOException {
        sites.write(out);
        out.list(
                models,
                model -> {
                    out.text(model.part());
                    out.text(model.kind());
                    out.list(model.tileSteps(), out::number);
                    out.list(model.accepts(), out::text);
                    out.list(
                            model.pins(),
                            pin -> {
                                out.text(pin.name());
                                out.constant(pin.direction());
                                out.text(pin.alike());
                            });
                });
        out.numbers(words);
        out.numbers(runOfTile);
    }

    static SiteList read(CompactIn in, TileOffsets vertices) throws IOException {
        TileOffsets sites = TileOffsets.read(in, vertices.tiles());
        List<Model> models =
                in.list(
                        () ->
                                new Model(
                                        in.text(),
                                        in.text(),
                                        in.list(in::number),
                                        in.textList(),
                                        in.list(
                                                () ->
                                                        new SitePin(
                                                                in.text(),
                                                                in.constant(PinDirection.class),
                                                                in.text()))));
        int[] words = in.numbers();
        int[] runOfTile = in.numbers();
        sites.requireRuns(runOfTile, 2, words.length);
        SiteList result = new SiteList(List.copyOf(models), sites, vertices, runOfTile, words);
        result.requirePinsAndTiles();
        return result;
    }

    private void requirePinsAndTiles() throws Damaged {
        for (int tile = 0; tile < runOfTile.length; tile++) {
            int behind = 0;
            for (int i = 0; i < sites.size(tile); i++) {
                int at = runOfTile[tile] + 2 * i;
                Damaged.unless(words[at] >= 0 && words[at] < models.size(), "a model of a site");
                Model model = models.get(words[at]);
                long end = words[at + 1] + (long) model.pins().size();
                Damaged.unless(
                        words[at + 1] >= behind && end <= vertices.size(tile), "pins of a site");
                behind = (int) end;
                for (int step : model.tileSteps()) {
                    long other = (long) tile + step;
                    Damaged.unless(other >= 0 && other < runOfTile.length, "a tile of a site");
                }
            }
        }
    }

    /** The names' numbers. */
    TileOffsets bases() {
        return sites;
    }

    int count() {
        return sites.count();
    }

    /** Whether some site extends over several tiles. */
    boolean hasWide() {
        return models.stream().anyMatch(model -> !model.tileSteps().isEmpty());
    }

    /** The sites that extend over each tile from another one. O(sites). */
    Int2ObjectMap<List<Integer>> reaching() {
        Int2ObjectMap<List<Integer>> result = new Int2ObjectOpenHashMap<>();
        result.defaultReturnValue(List.of());
        for (int tile = 0; hasWide() && tile < runOfTile.length; tile++) {
            for (int i = 0; i < sites.size(tile); i++) {
                for (int step : models.get(words[runOfTile[tile] + 2 * i]).tileSteps()) {
                    result.computeIfAbsent(tile + step, t -> new ArrayList<>())
                            .add(sites.first(tile) + i);
                }
            }
        }
        return result;
    }

    /** The different names of parts, in the order in which they came; none for most fabrics. */
    List<String> partNames() {
        return partNames;
    }

    int first(int tile) {
        return sites.first(tile);
    }

    /** What a site has in common with others. */
    Model model(int site) {
        return models.get(words[wordsOf(sites.tileOf(site), site)]);
    }

    /** The vertex of a site's first pin. */
    int firstPin(int site) {
        int tile = sites.tileOf(site);
        return vertices.first(tile) + words[wordsOf(tile, site) + 1];
    }

    private int wordsOf(int tile, int site) {
        return runOfTile[tile] + 2 * (site - sites.first(tile));
    }

    SiteView site(int site, String name) {
        int tile = sites.tileOf(site);
        Model model = model(site);
        return new SiteView(
                site,
                name,
                model.part(),
                model.kind(),
                tile,
                model.tileSteps().stream().map(step -> tile + step).toList(),
                model.accepts(),
                firstPin(site),
                model.pins());
    }

    /** The site of a vertex, or {@link Fabric#NOTHING}. O(log sites of its tile). */
    int siteOf(int vertex) {
        int tile = vertices.tileOf(vertex);
        int place = vertex - vertices.first(tile);
        int run = runOfTile[tile];
        int low = 0;
        int high = sites.size(tile) - 1;
        while (low <= high) {
            int middle = (low + high) >>> 1;
            int firstPin = words[run + 2 * middle + 1];
            if (place < firstPin) {
                high = middle - 1;
            } else if (place >= firstPin + models.get(words[run + 2 * middle]).pins().size()) {
                low = middle + 1;
            } else {
                return sites.first(tile) + middle;
            }
        }
        return Fabric.NOTHING;
    }

    /** Bytes of the arrays, with the sites' bases, without the vertices'. */
    long memory() {
        return 4L * (runOfTile.length + words.length) + sites.memory();
    }
}
