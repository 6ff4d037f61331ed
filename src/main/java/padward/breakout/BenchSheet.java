package padward.breakout;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.design.Attachment;
import padward.design.Design;
import padward.design.Edit;
import padward.design.Ledger;
import padward.design.LedgerEntry;
import padward.design.Net;
import padward.design.PadWiring;
import padward.fabric.Corner;
import padward.fabric.Delay;
import padward.fabric.DriverSetting;
import padward.fabric.Pad;
import padward.timing.Corrections;
import padward.timing.Instrument;
import padward.timing.LineTiming;
import padward.timing.Outside;

/**
 * What is taken to the bench: where each signal is to be found, and how late it is there.
 *
 * @param title name of the design
 * @param board name of the board, may be empty
 * @param lines one for each net that the ledger brings out, in the ledger's order
 * @param restore what to undo to get the design as it was, newest first
 * @param cautions to be read before a pad is driven
 */
public record BenchSheet(
        String title, String board, List<Line> lines, List<String> restore, List<String> cautions) {
    /** Copies the lists. */
    public BenchSheet {
        lines = List.copyOf(lines);
        restore = List.copyOf(restore);
        cautions = List.copyOf(cautions);
    }

    /**
     * One signal.
     *
     * @param net the net
     * @param port the port that brings it out
     * @param pad the pad's name
     * @param packagePin pin or ball of the package
     * @param place where the lead goes; empty when the board's description knows no place
     * @param setting the pad driver's setting
     * @param timing when its signal arrives at the instrument, and what of it is seen there
     * @param correctionPs what to add to this channel's time stamps so that all stand level with
     *     the latest, reckoned with the middles of the ranges, ps
     */
    public record Line(
            String net,
            String port,
            String pad,
            String packagePin,
            Optional<Attachment> place,
            Optional<DriverSetting> setting,
            LineTiming timing,
            int correctionPs) {
        /** Delay from the net's driver to outside the pad. */
        public Delay atPad() {
            return timing.chain().atPad();
        }

        /** The same with the board's trace, the connector and the lead. */
        public Delay atInstrument() {
            return timing.chain().atInstrument();
        }

        private Line withCorrection(int ps) {
            return new Line(net, port, pad, packagePin, place, setting, timing, ps);
        }
    }

    /**
     * The sheet of a ledger.
     *
     * @param base the design without the ledger
     * @param after the design with it
     */
    public static BenchSheet of(Design base, Ledger ledger, Design after, Outside outside) {
        List<Line> lines = new ArrayList<>();
        List<String> cautions = new ArrayList<>();
        List<String> restore = new ArrayList<>();
        for (int i = 0; i < ledger.entries().size(); i++) {
            LedgerEntry entry = ledger.entries().get(i);
            restore.add(0, "undo entry " + (i + 1) + ": " + entry.net() + " on " + entry.pad());
            for (Edit edit : entry.edits()) {
                if (edit instanceof Edit.BreakOut out) {
                    line(after, out, outside)
                            .ifPresent(
                                    l -> {
                                        lines.add(l);
                                        addCautions(base, out, cautions);
                                    });
                }
            }
        }
        List<Integer> corrections =
                Corrections.ofPs(lines.stream().map(Line::atInstrument).toList());
        List<Line> corrected = new ArrayList<>();
        for (int i = 0; i < lines.size(); i++) {
            corrected.add(lines.get(i).withCorrection(corrections.get(i)));
        }
        return new BenchSheet(base.name(), base.board().name(), corrected, restore, cautions);
    }

    private static int padIndex(Design design, String name) {
        int index = 0;
        while (!design.fabric().pads().get(index).name().equals(name)) {
            index++;
        }
        return index;
    }

    /** Empty when a later entry has taken the net off the pad again. */
    private static Optional<Line> line(Design after, Edit.BreakOut out, Outside outside) {
        int index = padIndex(after, out.pad());
        Pad pad = after.fabric().pads().get(index);
        Optional<Net> net = after.findNet(out.net());
        int place = net.map(n -> n.route().placeOf(pad.vertex())).orElse(-1);
        if (place < 0) {
            return Optional.empty();
        }
        String name = out.setting().isEmpty() ? pad.defaultSetting() : out.setting();
        Optional<DriverSetting> setting = after.fabric().info().findSetting(name);
        LineTiming timing =
                LineTiming.of(
                        after, net.get().route(), index, setting, outside, Instrument.UNKNOWN);
        return Optional.of(
                new Line(
                        out.net(),
                        out.port(),
                        pad.name(),
                        pad.packagePin(),
                        after.board().findWiring(index).flatMap(PadWiring::findLeadPlace),
                        setting,
                        timing,
                        0));
    }

    private static void addCautions(Design base, Edit.BreakOut out, List<String> cautions) {
        base.findNet(out.net())
                .ifPresent(
                        net -> {
                            Question question =
                                    new Question(base, net, padIndex(base, out.pad()), Corner.SLOW);
                            for (String caution : Cautions.of(question)) {
                                String text = out.pad() + ": " + caution;
                                if (!cautions.contains(text)) {
                                    cautions.add(text);
                                }
                            }
                        });
    }
}
