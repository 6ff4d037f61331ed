package padward.fabric.pattern;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import padward.fabric.Fabric;
import padward.fabric.FabricLimits;
import padward.fabric.pattern.PatternSpec.WireKind;

/** Which shape each tile of a pattern has, and where its vertices and sites begin. */
final class TileGrid {
    final int columns;
    final int rows;
    final List<WireKind> wires;
    final List<TileShape> shapes = new ArrayList<>();
    final int[] shapeOfTile;

    /** First vertex of each tile, and one past the last at the end. */
    final int[] vertexBase;

    /** First site of each tile, and one past the last at the end. */
    final int[] siteBase;

    /** The tile of vertex {@code 32 * i}: from there a short walk finds any vertex's tile. */
    final int[] tileOfBlock;

    /** The same for sites; many tiles may be without any. */
    private final int[] tileOfSiteBlock;

    static final int BLOCK_BITS = 5;

    TileGrid(int columns, int rows, List<WireKind> wires, TileModel[] models, int[] modelOfTile)
            throws PatternFault {
        this.columns = columns;
        this.rows = rows;
        this.wires = wires;
        int tiles = columns * rows;
        shapeOfTile = new int[tiles];
        vertexBase = new int[tiles + 1];
        siteBase = new int[tiles + 1];
        int[] counts = wires.stream().mapToInt(WireKind::count).toArray();
        Map<IntArrayList, Integer> known = new HashMap<>();
        long vertices = 0;
        long sites = 0;
        boolean[] exists = new boolean[wires.size()];
        IntArrayList key = new IntArrayList();
        for (int tile = 0; tile < tiles; tile++) {
            TileModel model = models[modelOfTile[tile]];
            key.clear();
            key.add(modelOfTile[tile]);
            for (int kind : model.wireKinds) {
                exists[kind] = step(tile, wires.get(kind).dx(), wires.get(kind).dy()) >= 0;
                key.add(exists[kind] ? 1 : 0);
            }
            Integer shape = known.get(key);
            if (shape == null) {
                shape = shapes.size();
                shapes.add(new TileShape(model, wires.size(), exists, counts));
                known.put(key.clone(), shape);
            }
            shapeOfTile[tile] = shape;
            vertices += shapes.get(shape).size();
            sites += model.sites.size();
            if (vertices > FabricLimits.VERTICES) {
                throw new PatternFault(
                        "$.grid", "at most " + FabricLimits.VERTICES + " vertices in all", "more");
            }
            vertexBase[tile + 1] = (int) vertices;
            siteBase[tile + 1] = (int) sites;
        }
        tileOfBlock = tilesOfBlocks(vertexBase);
        tileOfSiteBlock = tilesOfBlocks(siteBase);
    }

    private static int[] tilesOfBlocks(int[] base) {
        int tiles = base.length - 1;
        int[] result = new int[(base[tiles] >>> BLOCK_BITS) + 2];
        int tile = 0;
        for (int block = 0; block < result.length; block++) {
            while (tile < tiles - 1 && base[tile + 1] <= (long) block << BLOCK_BITS) {
                tile++;
            }
            result[block] = tile;
        }
        return result;
    }

    /** The tile a step away, or {@link Fabric#NOTHING} when that leaves the grid. */
    int step(int tile, int dx, int dy) {
        int x = tile % columns + dx;
        int y = tile / columns + dy;
        return x < 0 || y < 0 || x >= columns || y >= rows ? Fabric.NOTHING : y * columns + x;
    }

    TileShape shape(int tile) {
        return shapes.get(shapeOfTile[tile]);
    }

    int vertexCount() {
        return vertexBase[vertexBase.length - 1];
    }

    int tileOf(int vertex) {
        int tile = tileOfBlock[vertex >>> BLOCK_BITS];
        while (vertexBase[tile + 1] <= vertex) {
            tile++;
        }
        return tile;
    }

    int tileOfSite(int site) {
        int low = tileOfSiteBlock[site >>> BLOCK_BITS];
        int high = tileOfSiteBlock[(site >>> BLOCK_BITS) + 1];
        while (low < high) {
            int middle = (low + high) >>> 1;
            if (siteBase[middle + 1] <= site) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        return low;
    }

    /** Bytes of the arrays. */
    long bytes() {
        int bases = shapeOfTile.length + vertexBase.length + siteBase.length;
        return 4L * (bases + tileOfBlock.length + tileOfSiteBlock.length);
    }
}
