package padward.ui.model;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.verify.ChangeAudit;
import padward.change.Edit;
import padward.change.LedgerEntry;
import padward.change.Outcome;
import padward.design.Design;
import padward.ui.work.BackgroundWork;
import padward.ui.work.HeldBackground;
import padward.ui.work.PrefetchTask;

/**
 * The window's store and its questions, whatever the order in which background work ends: nothing
 * kept is lost, no answer stands that is about something else than what is open, and what is shown
 * is what was kept and saved.
 */
class StoreOrderTest {
    private static final Path FILE = Path.of("fixtures/small/only.design.json");
    private static final String[] NETS = {
        "pump/level/sample[1]", "pump/level/sample[0]", "alarm/beep", "float_hi"
    };
    private static final String[] PADS = {"J1.3", "J2.1", "J1.2", "x6y7/pad[1]"};

    private static DesignStore.Read read;
    private static Path ledger;
    private static List<LedgerEntry> inLedger;

    @BeforeAll
    static void readOnce(@TempDir Path folder) throws Exception {
        read = DesignStore.reading(Optional.of(FILE), KeptChangeStore.NONE).run(Progress.NONE);
        WindowModel model = new WindowModel(BackgroundWork.immediate());
        model.open(FILE);
        ask(model, NETS[1], PADS[1]);
        model.shown().tryIt();
        model.shown().acceptedProperty().set(true);
        model.keep();
        ledger = folder.resolve("ledger.json");
        model.design().saveLedger(ledger);
        inLedger = model.keptProperty().get().orElseThrow().entries();
        assertThat(inLedger).hasSize(1);
    }

    /** What was saved last for each file. */
    private static final class Saved implements KeptChangeStore {
        private final Map<Path, List<LedgerEntry>> last = new HashMap<>();

        @Override
        public Found find(Path file, Design design, Progress progress) {
            return new Found(Optional.empty(), Optional.empty());
        }

        @Override
        public void save(Path file, KeptChanges kept) {
            last.put(file, kept.entries());
        }

        @Override
        public void flush() {}

        @Override
        public void close() {}
    }

    /** What is written while a design is being read may not be in it: that is said afterwards. */
    @Test
    void aFileThatIsWrittenWhileItIsReadHasChanged(@TempDir Path folder) throws Exception {
        for (String name : List.of("only.design.json", "only.fabric.json", "board.json")) {
            Path from = FILE.resolveSibling(name);
            if (Files.exists(from)) {
                Files.copy(from, folder.resolve(name));
            }
        }
        Path file = folder.resolve("only.design.json");
        FileTime before = FileTime.fromMillis(1_000_000_000_000L);
        Files.setLastModifiedTime(file, before);
        DesignStore.Read read =
                DesignStore.reading(Optional.of(file), KeptChangeStore.NONE).run(Progress.NONE);
        PrefetchTask<DesignStore.Read> done = new PrefetchTask<>(progress -> read);
        done.await();
        Files.setLastModifiedTime(file, FileTime.fromMillis(1_000_000_100_000L));
        WindowModel model = new WindowModel(BackgroundWork.immediate());
        model.design().take(Optional.of(file), done, () -> {});
        assertThat(read.written()).contains(before);
        assertThat(model.notes().all()).isEmpty();
        model.lookForChange();
        assertThat(model.notes().all()).hasSize(1);
    }

    @Test
    void aSavedDesignThatDiffersInMoreIsAFault() throws Exception {
        WindowModel model = new WindowModel(BackgroundWork.immediate());
        model.open(FILE);
        KeptChanges kept = model.keptProperty().get().orElseThrow();
        Edit removal = new Edit.RemoveNet("float_hi");
        ChangeAudit audit =
                ChangeAudit.of(
                        kept.original(),
                        List.of(),
                        Outcome.apply(kept.original(), List.of(removal)));
        Path target = Path.of("changed.design.json");
        model.design().saved(target, audit);
        assertThat(model.notes().all())
                .singleElement()
                .satisfies(
                        n ->
                                assertThat(n.text())
                                        .startsWith("changed.design.json is not the open design")
                                        .contains("Unexpected changes: ")
                                        .contains("float_hi"));
        model.notes().dismissAbout(model.design());
        model.design().saved(target, ChangeAudit.of(kept.original(), List.of(), kept.original()));
        assertThat(model.notes().all()).isEmpty();
    }

    private static void ask(WindowModel model, String net, String pad) {
        model.shown().netTextProperty().set(net);
        model.shown().padTextProperty().set(pad);
        model.shown().ask();
    }

    private static List<LedgerEntry> kept(WindowModel model) {
        return model.keptProperty().get().orElseThrow().entries();
    }

    private static WindowModel opened(BackgroundWork background, KeptChangeStore store)
            throws Exception {
        WindowModel model = new WindowModel(background, store);
        PrefetchTask<DesignStore.Read> done = new PrefetchTask<>(progress -> read);
        done.await();
        model.design().take(Optional.of(FILE), done, () -> {});
        return model;
    }

    /** What must be true at every moment, whatever still runs. */
    private static void check(WindowModel model, Saved saved) {
        WorkState state = model.design().state().orElseThrow();
        Design shown = state.opened().design();
        assertThat(state.kept().design()).isSameAs(shown);
        assertThat(saved.last.getOrDefault(FILE, List.of())).isEqualTo(state.kept().entries());
        for (QuestionModel question : model.questions().all()) {
            question.answerProperty()
                    .get()
                    .ifPresent(a -> assertThat(a.question().design()).isSameAs(shown));
            question.whatIfProperty()
                    .get()
                    .ifPresent(w -> assertThat(w.version()).isEqualTo(state.version()));
        }
        assertThat(model.shown().answerProperty().get())
                .isEqualTo(model.shown().question().answerProperty().get());
    }

    /** When nothing runs any more: the entries give the design that is shown, all is answered. */
    private static void checkAtRest(WindowModel model, boolean stopped) {
        Design replayed = read.bare().original();
        for (LedgerEntry entry : kept(model)) {
            replayed = Outcome.apply(replayed, entry.edits());
        }
        Design shown = model.openedProperty().get().orElseThrow().design();
        assertThat(shown.nets()).isEqualTo(replayed.nets());
        assertThat(shown.cells()).isEqualTo(replayed.cells());
        assertThat(shown.ports()).isEqualTo(replayed.ports());
        if (!stopped) {
            assertThat(model.questions().all()).noneMatch(QuestionModel::isOwed);
        }
    }

    /**
     * Five jobs run: two questions, a what-if, a survey and the reading of a ledger. Whatever the
     * order of their ends, and wherever between them a change is kept or undone.
     */
    @Test
    void everyOrderOfFiveJobsAndAChangeBetweenThem() throws Exception {
        int at = 0;
        for (List<Integer> order : permutations(5)) {
            run(order, at % 6, at / 6 % 2 == 0);
            at++;
        }
    }

    /** The same with a change at each place of each order. */
    @Test
    @Tag("slow")
    void everyOrderOfFiveJobsAndAChangeAtEachPlace() throws Exception {
        for (List<Integer> order : permutations(5)) {
            for (int at = 0; at <= 5; at++) {
                run(order, at, true);
                run(order, at, false);
            }
        }
    }

    private void run(List<Integer> order, int changeAt, boolean keeps) throws Exception {
        HeldBackground background = new HeldBackground();
        Saved saved = new Saved();
        WindowModel model = opened(background, saved);
        ask(model, NETS[0], PADS[0]);
        background.endAll();
        model.shown().tryIt();
        background.endAll();
        model.shown().acceptedProperty().set(true);
        model.keep();
        background.endAll();
        assertThat(kept(model)).hasSize(1);
        model.questions().open("");
        ask(model, NETS[1], PADS[1]);
        background.endAll();
        QuestionModel second = model.shown().question();
        second.tryIt();
        background.endAll();
        assertThat(second.whatIfProperty().get()).isPresent();

        // The five that race.
        model.questions().open("");
        ask(model, NETS[2], PADS[2]);
        model.questions().open("");
        ask(model, NETS[3], PADS[3]);
        model.questions().show(model.questions().all().get(0));
        model.shown().tryIt();
        model.questions().open("");
        ask(model, NETS[1], PADS[3]);
        model.design().openLedger(ledger);
        model.questions().show(second);
        List<Object> racing = background.jobs();
        assertThat(racing).hasSizeBetween(4, 5);
        for (int i = 0; i <= racing.size(); i++) {
            if (i == Math.min(changeAt, racing.size())) {
                change(model, keeps);
                check(model, saved);
            }
            if (i < racing.size()) {
                int which = order.stream().filter(o -> o < racing.size()).toList().get(i);
                background.end(racing.get(which));
                check(model, saved);
            }
        }
        background.endAll();
        check(model, saved);
        checkAtRest(model, false);
    }

    /** Another lead leaves the version as it is, but is a change of what is kept. */
    @Test
    void aLeadChangedWhileALedgerIsReadIsNotLost() {
        HeldBackground background = new HeldBackground();
        WindowModel model = new WindowModel(background);
        model.open(FILE);
        background.endAll();
        model.design().openLedger(ledger);
        background.endAll();
        model.design().openLedger(ledger);
        model.design().changeLeads("changing a lead", kept(model));
        KeptChanges changed = model.keptProperty().get().orElseThrow();
        background.endAll();
        assertThat(model.keptProperty().get()).containsSame(changed);
        assertThat(model.notes().all()).hasSize(1);
    }

    /** Keeps the waiting what-if, or undoes; nothing else may change what is kept. */
    private static void change(WindowModel model, boolean keeps) {
        List<LedgerEntry> before = kept(model);
        if (!keeps) {
            model.undo();
            assertThat(kept(model)).hasSizeLessThanOrEqualTo(before.size() + 1);
        } else if (model.shown().whatIfProperty().get().isPresent()) {
            model.shown().acceptedProperty().set(true);
            model.keep();
            assertThat(kept(model))
                    .hasSize(before.size() + 1)
                    .startsWith(before.toArray(new LedgerEntry[0]));
        }
    }

    private static List<List<Integer>> permutations(int count) {
        List<List<Integer>> result = new ArrayList<>();
        permute(new ArrayList<>(), count, result);
        return result;
    }

    private static void permute(List<Integer> begun, int count, List<List<Integer>> into) {
        if (begun.size() == count) {
            into.add(List.copyOf(begun));
            return;
        }
        for (int next = 0; next < count; next++) {
            if (!begun.contains(next)) {
                begun.add(next);
                permute(begun, count, into);
                begun.remove(begun.size() - 1);
            }
        }
    }

    /** Random steps of a user, between which running jobs end in any order. */
    @Test
    void randomStepsBetweenRandomEnds() throws Exception {
        int keeps = 0;
        for (int seed = 0; seed < Integer.getInteger("padward.orders", 40); seed++) {
            HeldBackground background = new HeldBackground();
            Saved saved = new Saved();
            WindowModel model = opened(background, saved);
            Random random = new Random(seed);
            boolean stopped = false;
            for (int step = 0; step < 160; step++) {
                if (background.running() > 0 && random.nextInt(5) > 0) {
                    List<LedgerEntry> before = kept(model);
                    background.end(background.jobs().get(random.nextInt(background.running())));
                    // Only a ledger that was read may change what is kept.
                    assertThat(kept(model)).as("seed %d", seed).isIn(before, inLedger);
                } else {
                    int what = random.nextInt(14);
                    int before = kept(model).size();
                    act(model, random, what);
                    stopped |= what == 9;
                    keeps += (what == 3 || what == 12) && kept(model).size() == before + 1 ? 1 : 0;
                }
                check(model, saved);
            }
            background.endAll();
            check(model, saved);
            checkAtRest(model, stopped);
        }
        assertThat(keeps).as("kept changes, or nothing was tested").isGreaterThan(20);
    }

    private static void act(WindowModel model, Random random, int what) {
        switch (what) {
            case 0, 1 -> ask(model, NETS[random.nextInt(4)], PADS[random.nextInt(4)]);
            case 2, 13 -> model.shown().tryIt();
            case 3, 12 -> {
                model.shown().acceptedProperty().set(true);
                model.keep();
            }
            case 4 -> model.undo();
            case 5 -> model.redo();
            case 6 -> model.drop();
            case 7 -> model.questions().open(NETS[random.nextInt(4)]);
            case 8 -> model.questions().step(1);
            case 9 -> model.cancel();
            case 10 -> model.questions().close(model.shown().question());
            default -> {
                if (random.nextInt(4) == 0) {
                    model.design().openLedger(ledger);
                }
            }
        }
    }

    /** The same with real threads: the model is used by one thread, the work is done by others. */
    @Test
    void randomStepsWithRealThreads() throws Exception {
        ExecutorService ui = Executors.newSingleThreadExecutor();
        try {
            for (int seed = 0; seed < 6; seed++) {
                Saved saved = new Saved();
                WindowModel model =
                        ui.submit(() -> opened(BackgroundWork.threaded(ui::execute), saved)).get();
                Random random = new Random(seed);
                for (int step = 0; step < 50; step++) {
                    ui.submit(
                                    () -> {
                                        act(model, random, random.nextInt(9));
                                        check(model, saved);
                                    })
                            .get();
                    TimeUnit.MILLISECONDS.sleep(random.nextInt(8));
                }
                long until = System.nanoTime() + TimeUnit.SECONDS.toNanos(60);
                while (ui.submit(() -> !model.jobs().running().isEmpty()).get()) {
                    assertThat(System.nanoTime()).isLessThan(until);
                    TimeUnit.MILLISECONDS.sleep(5);
                }
                ui.submit(
                                () -> {
                                    check(model, saved);
                                    checkAtRest(model, false);
                                })
                        .get();
            }
        } finally {
            ui.shutdownNow();
        }
    }

    /** As soon as a field differs from what was asked, the answer may be neither tried nor kept. */
    @Test
    void anAnswerToAnotherQuestionIsNeitherTriedNorKept() throws Exception {
        WindowModel model = opened(BackgroundWork.immediate(), new Saved());
        ask(model, NETS[0], PADS[0]);
        QuestionModel question = model.shown().question();
        String title = question.title();
        model.shown().netTextProperty().set(NETS[3]);
        assertThat(question.asAskedProperty().get()).isFalse();
        assertThat(question.title()).isEqualTo(title);
        model.shown().tryIt();
        assertThat(model.shown().whatIfProperty().get()).isEmpty();
        model.shown().netTextProperty().set(NETS[0]);
        model.shown().tryIt();
        assertThat(model.shown().whatIfProperty().get()).isPresent();
        model.shown().padTextProperty().set(PADS[3]);
        model.shown().acceptedProperty().set(true);
        model.keep();
        assertThat(kept(model)).isEmpty();
        model.shown().padTextProperty().set(PADS[0]);
        model.shown().acceptedProperty().set(true);
        model.keep();
        assertThat(kept(model)).hasSize(1);
    }

    /** A change asks again what was asked, not what has been typed since. */
    @Test
    void whatIsTypedIsNotAskedByAChange() throws Exception {
        WindowModel model = opened(BackgroundWork.immediate(), new Saved());
        ask(model, NETS[0], PADS[0]);
        model.shown().tryIt();
        model.shown().acceptedProperty().set(true);
        model.keep();
        model.shown().padTextProperty().set("");
        model.undo();
        Optional<Answer> answer = model.shown().answerProperty().get();
        assertThat(answer.orElseThrow().question().net().name()).isEqualTo(NETS[0]);
        assertThat(model.notes().all()).isEmpty();
    }

    /** Stop leaves the other tabs without an answer, not with an old one; showing one asks it. */
    @Test
    void stoppedTabsAreAskedWhenTheyAreShown() throws Exception {
        HeldBackground background = new HeldBackground();
        WindowModel model = opened(background, new Saved());
        ask(model, NETS[0], PADS[0]);
        background.endAll();
        QuestionModel first = model.shown().question();
        model.questions().open("");
        ask(model, NETS[1], PADS[1]);
        background.endAll();
        model.shown().tryIt();
        background.endAll();
        model.shown().acceptedProperty().set(true);
        model.keep();
        model.cancel();
        background.endAll();
        assertThat(first.answerProperty().get()).isEmpty();
        assertThat(first.isOwed()).isTrue();
        model.questions().show(first);
        background.endAll();
        assertThat(first.answerProperty().get()).isPresent();
    }

    /** A tab keeps its hop when another one is shown for a while. */
    @Test
    void aTabKeepsItsHop() throws Exception {
        WindowModel model = opened(BackgroundWork.immediate(), new Saved());
        // The map clears the hop when another option is shown.
        model.shown()
                .optionProperty()
                .addListener(
                        (p, old, now) -> model.shown().selectedHopProperty().set(Optional.empty()));
        ask(model, NETS[0], PADS[0]);
        model.shown().optionProperty().set(0);
        QuestionModel first = model.shown().question();
        model.shown().selectedHopProperty().set(Optional.of(2));
        model.questions().open("");
        ask(model, NETS[1], PADS[1]);
        model.shown().optionProperty().set(1);
        model.questions().show(first);
        assertThat(model.shown().selectedHopProperty().get()).contains(2);
    }

    /** Opening something over a what-if that is neither kept nor dropped asks first. */
    @Test
    void openingOverAWhatIfAsksFirst() throws Exception {
        WindowModel model = opened(BackgroundWork.immediate(), new Saved());
        List<String> asked = new ArrayList<>();
        List<Runnable> accepted = new ArrayList<>();
        model.askThrough(
                (question, yes, then) -> {
                    asked.add(question);
                    accepted.add(then);
                });
        ask(model, NETS[0], PADS[0]);
        model.shown().tryIt();
        for (Runnable opening :
                List.<Runnable>of(
                        () -> model.openLedger(ledger),
                        () -> model.open(FILE),
                        model::openDemo,
                        () -> model.openAny(FILE))) {
            opening.run();
            assertThat(model.shown().whatIfProperty().get()).isPresent();
        }
        assertThat(asked).hasSize(4).allMatch(q -> q.startsWith("A what-if is neither kept"));
        accepted.get(0).run();
        assertThat(kept(model)).isEqualTo(inLedger);
        assertThat(model.shown().whatIfProperty().get()).isEmpty();
    }

    /** What was kept on the demo is there again after a lesson. */
    @Test
    void whatWasKeptOnTheDemoSurvivesALesson() {
        WindowModel model = new WindowModel(BackgroundWork.immediate());
        model.openDemo();
        ask(model, "pump/level/sample[1]", "J1.3");
        model.shown().tryIt();
        model.shown().acceptedProperty().set(true);
        model.keep();
        List<LedgerEntry> entries = kept(model);
        assertThat(entries).hasSize(1);
        model.openLesson(progress -> read.bare().original());
        assertThat(kept(model)).isEmpty();
        model.openDemo();
        assertThat(kept(model)).isEqualTo(entries);
        model.undo();
        assertThat(kept(model)).isEmpty();
        model.openLesson(progress -> read.bare().original());
        model.openDemo();
        assertThat(kept(model)).isEmpty();
    }
}
