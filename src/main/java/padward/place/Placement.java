package padward.place;

import java.util.Arrays;
import padward.fabric.Fabric;

/** Which block stands on which spot; changes while a placement is sought. One thread's own. */
final class Placement {
    private final PlacementSites sites;
    private final PlacementCost cost;
    private final int[] spotOfBlock;
    private final int[] blockOnSpot;
    private final boolean[] fixed;

    Placement(PlacementSites sites, PlacementCost cost, int blocks) {
        this.sites = sites;
        this.cost = cost;
        this.spotOfBlock = new int[blocks];
        this.blockOnSpot = new int[sites.count()];
        this.fixed = new boolean[blocks];
        Arrays.fill(spotOfBlock, Fabric.NOTHING);
        Arrays.fill(blockOnSpot, Fabric.NOTHING);
    }

    void put(int block, int spot) {
        spotOfBlock[block] = spot;
        blockOnSpot[spot] = block;
        cost.put(block, sites.tile(spot));
    }

    /** Puts a block where it stays. */
    void fix(int block, int spot) {
        put(block, spot);
        fixed[block] = true;
    }

    boolean isFixed(int block) {
        return fixed[block];
    }

    int spotOf(int block) {
        return spotOfBlock[block];
    }

    /** The block on a spot, or {@link Fabric#NOTHING}. */
    int blockOn(int spot) {
        return blockOnSpot[spot];
    }

    /** Moves a block; what stands on its new spot takes the old one. */
    void swap(int block, int spot) {
        int old = spotOfBlock[block];
        int other = blockOnSpot[spot];
        put(block, spot);
        if (other == Fabric.NOTHING) {
            blockOnSpot[old] = Fabric.NOTHING;
        } else {
            put(other, old);
        }
    }

    int[] toSpots() {
        return spotOfBlock.clone();
    }
}
