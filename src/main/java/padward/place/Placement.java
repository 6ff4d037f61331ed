package padward.place;

import java.util.Arrays;
import padward.fabric.Fabric;

/** Which block is on which spot; changes during the search for a placement. For one thread. */
final class Placement {
    private final PlacementSites sites;
    private final PlacementCost cost;
    private final SharedSignalWires shared;
    private final int[] spotOfBlock;
    private final int[] blockOnSpot;
    private final boolean[] fixed;

    Placement(PlacementSites sites, PlacementCost cost, SharedSignalWires shared, int blocks) {
        this.sites = sites;
        this.cost = cost;
        this.shared = shared;
        this.spotOfBlock = new int[blocks];
        this.blockOnSpot = new int[sites.count()];
        this.fixed = new boolean[blocks];
        Arrays.fill(spotOfBlock, Fabric.NOTHING);
        Arrays.fill(blockOnSpot, Fabric.NOTHING);
    }

    void put(int block, int spot) {
        if (spotOfBlock[block] != Fabric.NOTHING) {
            shared.count(block, spotOfBlock[block], -1);
        }
        shared.count(block, spot, 1);
        spotOfBlock[block] = spot;
        blockOnSpot[spot] = block;
        cost.put(block, sites.tile(spot));
    }

    /** Puts a block on a spot and fixes it there. */
    void fix(int block, int spot) {
        put(block, spot);
        fixed[block] = true;
    }

    boolean isFixed(int block) {
        return fixed[block];
    }

    int siteOf(int block) {
        return spotOfBlock[block];
    }

    /** The block on a spot, or {@link Fabric#NOTHING}. */
    int blockOn(int spot) {
        return blockOnSpot[spot];
    }

    /** Moves a block; the block on its new spot, if any, moves to the old one. */
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

    /** How many nets come to wires that can carry fewer. */
    int tooManyOnWires() {
        return shared.tooMany();
    }

    int[] toSpots() {
        return spotOfBlock.clone();
    }
}
