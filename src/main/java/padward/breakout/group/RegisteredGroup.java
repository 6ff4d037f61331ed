package padward.breakout.group;

import java.util.List;
import java.util.Optional;
import padward.base.Progress;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupant;
import padward.fabric.Corner;
import padward.fabric.Delay;
import padward.timing.ExternalLine;

/**
 * An offer: a group's signals held in the IO registers of their pads, by one clock. They come out
 * one period of that clock later, and what is left of their skew is the clock's, the drivers' and
 * what lies outside; the nets' own ways count no more. An offer only: it places no cells.
 *
 * @param clock the clock net
 * @param lines one for each line of the group, in its order
 */
public record RegisteredGroup(Net clock, List<Line> lines) {
    /** Copies the lines. */
    public RegisteredGroup {
        lines = List.copyOf(lines);
    }

    /**
     * One line.
     *
     * @param net the net
     * @param pad index of its pad
     * @param toFree what holds the pad's IO register site and must be freed; empty for nothing
     * @param hindrance why it cannot be held there, even so, as a clause; empty when it can
     * @param data delay of the net to the register
     * @param clocked delay of the clock to the register
     * @param atInstrument delay of the clock to the register, and of all behind it: driver, trace,
     *     connector, lead; without the register's own, which is the same for all
     */
    public record Line(
            Net net,
            int pad,
            List<Occupant> toFree,
            Optional<String> hindrance,
            Delay data,
            Delay clocked,
            Delay atInstrument) {
        /** Copies the list. */
        public Line {
            toFree = List.copyOf(toFree);
        }
    }

    /**
     * Looks whether a group's signals could be held. Ways to the registers and the clock's branches
     * are really laid, together, over what is free once the sites are.
     *
     * @param bus the group; its own ways are not laid then
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    public static RegisteredGroup of(
            Design design, Bus bus, Net clock, ExternalLine outside, Progress progress) {
        return new GroupRegistering(design, bus, clock, outside, progress).run();
    }

    /** Whether all lines can be held, once what must be freed is. */
    public boolean isPossible() {
        return lines.stream().allMatch(l -> l.hindrance().isEmpty());
    }

    /** Greatest difference between lines that can be held, at one corner, ps. */
    public int skewPs(Corner corner) {
        var there =
                lines.stream()
                        .filter(l -> l.hindrance().isEmpty())
                        .mapToInt(l -> l.atInstrument().at(corner))
                        .summaryStatistics();
        return there.getCount() == 0 ? 0 : there.getMax() - there.getMin();
    }
}
