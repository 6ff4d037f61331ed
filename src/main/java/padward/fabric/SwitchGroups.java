package padward.fabric;

import it.unimi.dsi.fastutil.longs.LongList;
import it.unimi.dsi.fastutil.longs.LongLists;

/**
 * Groups of switches of which at most one can be on, because they share a setting: the inputs of a
 * multiplexer that leads to several wires, say. A switch belongs to one group at the most. Switches
 * into the same wire need no group, for a wire carries one net and is entered once.
 *
 * <p>Immutable, safe for all threads.
 */
public interface SwitchGroups {
    /** No groups. */
    SwitchGroups NONE = new None();

    /** Whether there are none. */
    default boolean isEmpty() {
        return count() == 0;
    }

    /** Number of groups, which are numbered from 0. */
    int count();

    /** Name of a group. */
    String name(int group);

    /** The switches of a group as {@link EdgeKey}s, sorted; O(their number). */
    LongList switches(int group);

    /**
     * The group of the switch between two vertices, or {@link Fabric#NOTHING}. O(1), or the number
     * of switches into the second one where these are not all in one group. Where the fabric has no
     * edge between the two, nothing is said.
     */
    int groupOf(int from, int to);

    /** Bytes that the switches take, without the names. */
    long memory();

    /** Bytes that the names take, without those of texts that other names share. */
    long nameMemory();

    /** No groups. */
    final class None implements SwitchGroups {
        private None() {}

        @Override
        public int count() {
            return 0;
        }

        @Override
        public String name(int group) {
            throw new IndexOutOfBoundsException(group);
        }

        @Override
        public LongList switches(int group) {
            return LongLists.EMPTY_LIST;
        }

        @Override
        public int groupOf(int from, int to) {
            return Fabric.NOTHING;
        }

        @Override
        public long memory() {
            return 0;
        }

        @Override
        public long nameMemory() {
            return 0;
        }
    }
}
