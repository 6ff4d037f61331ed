package padward.route.cost;

import static org.assertj.core.api.Assertions.assertThat;

import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.BitSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.example.HandMade;

/** Sets of blocked vertices as a shared part and few differences, against plain sets. */
class BlockedVerticesTest {
    private static BitSet bits(int... members) {
        BitSet result = new BitSet();
        IntStream.of(members).forEach(result::set);
        return result;
    }

    private static Set<Integer> members(BlockedVertices set) {
        Set<Integer> result = new TreeSet<>();
        IntStream.range(0, 40).filter(set::get).forEach(result::add);
        return result;
    }

    @Test
    void whatDiffersIsTurnedRound() {
        BlockedVertices set = new BlockedVertices(bits(1, 2, 3), IntSet.of(2, 5));
        assertThat(members(set)).containsExactly(1, 3, 5);
        assertThat(members(BlockedVertices.of(bits(4, 7)))).containsExactly(4, 7);
        assertThat(members(BlockedVertices.listed(IntSet.of(9)))).containsExactly(9);
        assertThat(members(BlockedVertices.NONE)).isEmpty();
    }

    @Test
    void theCallersSetMayChangeAfterwards() {
        IntSet different = new IntOpenHashSet(new int[] {5});
        BlockedVertices set = new BlockedVertices(bits(), different);
        different.add(6);
        assertThat(members(set)).containsExactly(5);
    }

    @Test
    void membersAreAddedAndLeftOut() {
        BlockedVertices set = new BlockedVertices(bits(1, 2, 3), IntSet.of(2, 5));
        assertThat(members(set.with(IntSet.of(2, 8), IntSet.of(1, 9)))).containsExactly(2, 3, 5, 8);
        // What is added and left out at once is added.
        assertThat(members(set.with(IntSet.of(3, 4), IntSet.of(3, 4)))).containsExactly(1, 3, 4, 5);
        assertThat(set.base()).isEqualTo(bits(1, 2, 3));
        // The shared part stays the same object, so that a search keeps its copy of it.
        assertThat(set.with(IntSet.of(8), IntSet.of()).base()).isSameAs(set.base());
        assertThat(set.with(IntSet.of(1), IntSet.of(9))).isSameAs(set);
        // What is as in the shared part again is no difference.
        assertThat(set.with(IntSet.of(2), IntSet.of(5)).different()).isEmpty();
    }

    @Test
    void drawnChangesAreThoseOfPlainSets() {
        Random random = new Random(1);
        for (int round = 0; round < 200; round++) {
            BitSet base = new BitSet();
            random.ints(10, 0, 40).forEach(base::set);
            BlockedVertices set = BlockedVertices.of(base);
            Set<Integer> plain = members(set);
            for (int step = 0; step < 5; step++) {
                IntSet added = new IntOpenHashSet(random.ints(3, 0, 40).toArray());
                IntSet leftOut = new IntOpenHashSet(random.ints(3, 0, 40).toArray());
                set = set.with(added, leftOut);
                plain.removeAll(leftOut);
                plain.addAll(added);
                assertThat(members(set)).isEqualTo(plain);
            }
        }
    }

    /** Net n uses s.o and a; wire c is unusable. */
    private static Design design() {
        return new HandMade()
                .wires("a b c")
                .site("S", "", "o")
                .chain("S.o a b c")
                .unusable("c")
                .cell("s", "S")
                .net("n", "s.o", "", "S.o a")
                .design();
    }

    private static List<String> names(Design design, BlockedVertices set) {
        return IntStream.range(0, design.fabric().vertexCount())
                .filter(set::get)
                .mapToObj(design.fabric()::vertexName)
                .sorted()
                .toList();
    }

    @Test
    void aDraftBeginsWithWhatTheDesignUses() {
        Design design = design();
        int a = design.fabric().findVertex("a");
        int b = design.fabric().findVertex("b");
        int c = design.fabric().findVertex("c");
        BlockedVerticesDraft draft = BlockedVerticesDraft.of(design.occupancy());
        assertThat(names(design, draft.toVertices())).containsExactly("S.o", "a", "c");
        assertThat(draft.isBlocked(a)).isTrue();
        assertThat(draft.isBlocked(b)).isFalse();
        BlockedVerticesDraft copy = draft.copy();
        draft.free(a);
        draft.block(b);
        assertThat(names(design, draft.toVertices())).containsExactly("S.o", "b", "c");
        assertThat(names(design, copy.toVertices())).containsExactly("S.o", "a", "c");
        draft.block(a);
        draft.free(b);
        assertThat(draft.toVertices().different()).isEmpty();
        assertThat(draft.isBlocked(a)).isTrue();
        // What is unusable is not freed.
        draft.free(c);
        assertThat(draft.isBlocked(c)).isTrue();
        draft.blockAll(IntSet.of(b)).freeAll(IntSet.of(a, c));
        assertThat(names(design, draft.toVertices())).containsExactly("S.o", "b", "c");
    }

    /** Of a changed design, what differs from the one that was read is a difference. */
    @Test
    void aDraftOfAChangedDesignSharesTheFirstOnesPart() {
        Design read = design();
        Design changed = Outcome.apply(read, List.of(new Edit.RemoveNet("n")));
        BlockedVertices set = BlockedVerticesDraft.of(changed.occupancy()).toVertices();
        assertThat(set.base())
                .isSameAs(BlockedVerticesDraft.of(read.occupancy()).toVertices().base());
        // The pin is still the cell's.
        assertThat(names(changed, set)).containsExactly("S.o", "c");
    }
}
