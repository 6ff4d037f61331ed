package padward.watch.place;

import java.util.List;
import java.util.stream.Stream;
import padward.breakout.ask.Answer;
import padward.change.Edit;
import padward.design.Design;
import padward.timing.SinkDelayChange;

/** What comes of the question whether a watch circuit fits: exactly one of two. */
public sealed interface WatchResult {
    /** The question. */
    WatchQuestion question();

    /**
     * It fits.
     *
     * @param question the question
     * @param edits what it takes, in order
     * @param design the design with it
     * @param cells its cells, in the order of the circuit's elements
     * @param legs how its outputs come out, in their order
     * @param timing its delays
     * @param loads what the branches do to sinks that were there before, where that is not nothing
     */
    record Placed(
            WatchQuestion question,
            List<Edit> edits,
            Design design,
            List<PlacedCell> cells,
            List<Leg> legs,
            WatchTiming timing,
            List<SinkDelayChange> loads)
            implements WatchResult {
        /** Copies the lists. */
        public Placed {
            edits = List.copyOf(edits);
            cells = List.copyOf(cells);
            legs = List.copyOf(legs);
            loads = List.copyOf(loads);
        }

        /** The edits that moved what was there, to make room; none where nothing may be moved. */
        public List<Edit> moves() {
            return edits.stream()
                    .filter(
                            e ->
                                    e instanceof Edit.RouteNet
                                            || e instanceof Edit.RelocateCell
                                            || e instanceof Edit.SetCell)
                    .toList();
        }

        /** Names of the nets that were rerouted to make room. */
        public List<String> movedNets() {
            return moves().stream()
                    .flatMap(
                            e ->
                                    e instanceof Edit.RelocateCell cell
                                            ? cell.nets().stream()
                                            : e instanceof Edit.RouteNet net
                                                    ? Stream.of(net)
                                                    : Stream.empty())
                    .map(Edit.RouteNet::net)
                    .distinct()
                    .toList();
        }
    }

    /**
     * An element of the circuit as a cell.
     *
     * @param element number of the element
     * @param cell name of the cell
     * @param kind its kind
     * @param site name of its site
     */
    record PlacedCell(int element, String cell, String kind, String site) {}

    /**
     * An output of the circuit on its pad.
     *
     * @param output its name in the circuit
     * @param answer the answer for its net, on the design with all cells and nets of the circuit
     */
    record Leg(String output, Answer.FreeRoute answer) {
        /** Name of the net that is brought out. */
        public String net() {
            return answer.question().net().name();
        }

        /** Name of the pad. */
        public String pad() {
            return answer.question().padValue().name();
        }
    }

    /**
     * It does not fit.
     *
     * @param question the question
     * @param reason which of the reasons
     * @param text the reason, as sentences
     * @param proven whether it cannot fit at all; otherwise no place was found
     */
    record DoesNotFit(WatchQuestion question, Reason reason, String text, boolean proven)
            implements WatchResult {}

    /** Why a circuit does not fit. */
    enum Reason {
        /** The fabric does not say which kinds of cell are lookup tables or registers. */
        NO_KINDS("no-kinds"),
        /** There are not enough free sites. */
        NO_FREE_SITES("no-free-sites"),
        /** A clock comes to no free register. */
        CLOCK_CANNOT_REACH("clock-cannot-reach"),
        /** A net comes to no free site that the circuit could use. */
        NET_CANNOT_REACH("net-cannot-reach"),
        /** The pad is blocked, or has no route at all. */
        PAD_BLOCKED("pad-blocked"),
        /** Each net has a route, and no layout was found that has all of them together. */
        NOT_TOGETHER("not-together");

        private final String label;

        Reason(String label) {
            this.label = label;
        }

        /** The word in files. */
        public String label() {
            return label;
        }
    }
}
