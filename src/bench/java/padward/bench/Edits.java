package padward.bench;

import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.AnswerEdits;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.change.Edit;
import padward.change.EntryRemoval;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.delay.Corner;
import padward.route.search.SearchEngineKind;
import padward.synth.DesignMaker;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;

/**
 * Applies what answers propose to a made design: one entry as a what-if, ten on top of each other,
 * and the undoing of one in the middle of ten. The peer is a design built as a whole, with its
 * tables of what uses what, as each edit once did it.
 *
 * <p>Fails if a what-if takes more than 5 ms or ten edits more than 20 ms, at the median.
 *
 * <p>Arguments: the number of wires.
 */
public final class Edits {
    private static final int ROUNDS = 200;
    private static final int IN_A_ROW = 10;

    private Edits() {}

    /** Runs everything. */
    public static void main(String[] args) throws Exception {
        Locale.setDefault(Locale.ROOT);
        int wires = args.length > 0 ? Integer.parseInt(args[0]) : 1_000_000;
        Design design = DesignMaker.make(wires, 4, 0.5, Progress.NONE).design();
        System.out.printf(
                "%,d vertices, %,d nets, %,d cells%n",
                design.fabric().vertexCount(), design.nets().size(), design.cells().size());
        design.occupancy();
        List<List<Edit>> proposed = proposed(design);
        double[] one = new double[ROUNDS];
        double[] ten = new double[ROUNDS];
        double[] undo = new double[ROUNDS];
        double[] whole = new double[10];
        for (int warm = 0; warm < 2; warm++) {
            for (int round = 0; round < ROUNDS; round++) {
                List<Edit> edits = proposed.get(round % proposed.size());
                one[round] = ms(() -> used(Outcome.apply(design, edits)));
                List<LedgerEntry> row = row(design, proposed, round);
                ten[round] =
                        ms(
                                () -> {
                                    Design now = design;
                                    for (LedgerEntry entry : row) {
                                        now = Outcome.apply(now, entry.edits());
                                    }
                                    used(now);
                                });
                Ledger ledger = new Ledger("", "", row);
                undo[round] = ms(() -> EntryRemoval.of(ledger, design, row.size() / 2));
            }
        }
        for (int i = 0; i < whole.length; i++) {
            whole[i] =
                    ms(
                            () ->
                                    used(
                                            new Design(
                                                    design.name(),
                                                    design.note(),
                                                    design.fabric(),
                                                    design.board(),
                                                    List.copyOf(design.cells()),
                                                    List.copyOf(design.nets()),
                                                    List.copyOf(design.ports()))));
        }
        print("one entry as a what-if", one);
        print("ten entries in a row", ten);
        print("undoing one in the middle of ten", undo);
        print("peer: the design built as a whole", whole);
        Promises promises = new Promises();
        promises.atMost("one entry as a what-if, median, ms", median(one), 5);
        promises.atMost("ten entries in a row, median, ms", median(ten), 20);
        System.exit(promises.report());
    }

    /** What answers to drawn questions propose, with what is removed and moved for them. */
    private static List<List<Edit>> proposed(Design design) {
        Asker asker = new Asker(design.fabric(), SearchEngineKind.OWN);
        Random random = new Random(5);
        List<Net> nets = List.copyOf(design.nets());
        List<List<Edit>> result = new ArrayList<>();
        while (result.size() < 60) {
            Net net = nets.get(random.nextInt(nets.size()));
            int pad = random.nextInt(design.fabric().pads().size());
            Question question = new Question(design, net, pad, Corner.SLOW);
            Answer answer = asker.answer(question, Progress.NONE);
            if (answer instanceof Answer.Open open && !AnswerEdits.isThere(open)) {
                result.add(AnswerEdits.of(open));
            }
        }
        return result;
    }

    /** Entries that fit on top of each other. */
    private static List<LedgerEntry> row(Design design, List<List<Edit>> proposed, int from) {
        List<LedgerEntry> result = new ArrayList<>();
        Design now = design;
        for (int i = 0; result.size() < IN_A_ROW && i < proposed.size(); i++) {
            List<Edit> edits = proposed.get((from + i) % proposed.size());
            if (Outcome.of(now, edits) instanceof Outcome.Applied applied) {
                now = applied.design();
                result.add(new LedgerEntry("now", "bench", "", "net", "pad", edits));
            }
        }
        return result;
    }

    /** Looks at what a search would look at first. */
    private static void used(Design design) {
        if (design.occupancy().findOccupant(0).isPresent() && design.nets().isEmpty()) {
            throw new IllegalStateException();
        }
    }

    private static double ms(Runnable work) {
        long begin = System.nanoTime();
        work.run();
        return (System.nanoTime() - begin) / 1e6;
    }

    private static double median(double[] ms) {
        double[] sorted = ms.clone();
        Arrays.sort(sorted);
        return sorted[sorted.length / 2];
    }

    private static void print(String what, double[] ms) {
        double[] sorted = ms.clone();
        Arrays.sort(sorted);
        System.out.printf(
                "%-36s median %8.3f ms, p90 %8.3f, most %8.3f%n",
                what,
                median(ms),
                sorted[sorted.length * 9 / 10],
                sorted[sorted.length - 1]);
    }
}
