package padward.ui.ledger;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import javafx.geometry.Insets;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.ContextMenu;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.SeparatorMenuItem;
import javafx.scene.control.TextField;
import javafx.scene.control.Tooltip;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyCodeCombination;
import javafx.scene.input.KeyCombination;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import padward.breakout.verify.ChangeAudit;
import padward.change.Edit;
import padward.change.EntryRemoval;
import padward.change.LedgerEntry;
import padward.change.LedgerLead;
import padward.format.tables.csv.CsvText;
import padward.ui.control.Actions;
import padward.ui.control.Controls;
import padward.ui.control.ThingMenu;
import padward.ui.model.NamedThing;
import padward.ui.model.WindowModel;

/** The kept changes, each with its own undo, and the report that nothing else changed. */
public final class LedgerView extends VBox {
    private static final int MOST_EDITS = 6;

    private static final List<String> HEADS =
            List.of("entry", "net or change", "pad", "when", "who", "note", "accepted", "edits");
    private static final KeyCombination COPY =
            new KeyCodeCombination(KeyCode.C, KeyCombination.SHORTCUT_DOWN);

    private final WindowModel model;
    private final LedgerModel ledger;
    private final Label count = Controls.text("", "faint");
    private final TextField filter = new TextField();
    private final VBox entries = new VBox(8);
    private final VBox pending = new VBox(6);
    private final VBox report = new VBox(4);
    private final Button check = new Button("Compare with file");

    /** Shows the ledger; its buttons do what the menus do. */
    public LedgerView(WindowModel model, LedgerModel ledger, Actions actions) {
        this.model = model;
        this.ledger = ledger;
        count.setId("ledger-count");
        filter.setId("ledger-filter");
        filter.setPromptText("net, pad, name, date, note, edit, lead");
        filter.setAccessibleText("Lists only entries with these words");
        filter.textProperty().addListener(p -> list());
        setId("ledger-view");
        setSpacing(8);
        setPadding(new Insets(10, 12, 10, 12));
        check.setId("check-button");
        check.setTooltip(
                new Tooltip(
                        "Checks that nothing else changed: reads the design file again, compares"
                                + " every wire and recalculates every delay"));
        check.setMinWidth(Region.USE_PREF_SIZE);
        check.setOnAction(e -> ledger.check());
        pending.getStyleClass().add("note");
        pending.setId("pending-undo");
        report.setId("audit");
        FlowPane foot =
                new FlowPane(
                        8,
                        6,
                        check,
                        Controls.button(actions.get("save")),
                        Controls.button(actions.get("sheet")));
        VBox all = new VBox(10, entries, report);
        ScrollPane scroll = new ScrollPane(all);
        scroll.setFitToWidth(true);
        scroll.getStyleClass().add("plain-scroll");
        VBox.setVgrow(scroll, Priority.ALWAYS);
        getChildren().addAll(count, filter, pending, scroll, foot);
        addEventHandler(
                KeyEvent.KEY_PRESSED,
                e -> {
                    if (COPY.match(e)) {
                        copy(listed());
                        e.consume();
                    }
                });
        model.keptProperty().addListener((p, old, now) -> show());
        ledger.pendingProperty().addListener((p, old, now) -> show(now));
        ledger.reportProperty().addListener((p, old, now) -> showAudit(now));
        show();
        show(ledger.pendingProperty().get());
        showAudit(ledger.reportProperty().get());
    }

    private void show() {
        report.getChildren().clear();
        check.setDisable(ledger.kept().isEmpty());
        list();
    }

    private void list() {
        List<LedgerEntry> kept = ledger.kept();
        entries.getChildren().clear();
        List<Integer> listed = listed();
        String all = kept.size() == 1 ? "1 kept change" : kept.size() + " kept changes";
        count.setText(listed.size() == kept.size() ? all : listed.size() + " of " + all);
        for (Node node : List.of(count, filter)) {
            node.setVisible(!kept.isEmpty());
            node.setManaged(!kept.isEmpty());
        }
        if (kept.isEmpty()) {
            Label none =
                    wrapped(
                            "Nothing is kept. Ask about a net and a pad, try the answer (Ctrl+T) and"
                                    + " keep it: it is then listed here and can be undone.");
            none.getStyleClass().add("faint");
            entries.getChildren().add(none);
        }
        listed.forEach(i -> entries.getChildren().add(row(i, kept.get(i))));
        if (listed.isEmpty() && !kept.isEmpty()) {
            Label none = wrapped("No entry has these words. Clear the field to list all.");
            none.getStyleClass().add("faint");
            entries.getChildren().add(none);
        }
    }

    /** The entries that are listed for what is typed in the filter, by their indices. */
    private List<Integer> listed() {
        List<LedgerEntry> kept = ledger.kept();
        String typed = filter.getText().strip().toLowerCase(Locale.ROOT);
        List<String> words = List.of(typed.split("[\\s,]+"));
        return IntStream.range(0, kept.size())
                .filter(i -> typed.isEmpty() || hasAll(kept.get(i), words))
                .boxed()
                .toList();
    }

    /** Whether an entry has all words, in what the filter's prompt names. */
    static boolean hasAll(LedgerEntry entry, List<String> words) {
        Stream<String> own =
                Stream.of(entry.net(), entry.pad(), entry.who(), entry.when(), entry.note());
        Stream<String> more =
                Stream.concat(
                        entry.edits().stream().map(Edit::toText),
                        entry.leads().stream().map(LedgerView::lead));
        String all =
                Stream.concat(own, more).collect(Collectors.joining("\n")).toLowerCase(Locale.ROOT);
        return words.stream().allMatch(all::contains);
    }

    private Node row(int index, LedgerEntry kept) {
        Label what = wrapped((index + 1) + ". " + kept.what());
        what.getStyleClass().add("side-title");
        String note = kept.note().isBlank() ? "" : " — " + kept.note();
        Label who = wrapped(time(kept.when()) + ", " + kept.who() + note);
        who.getStyleClass().addAll("faint", "small");
        Label edits = wrapped(edits(kept.edits()));
        edits.getStyleClass().add("small");
        String leads =
                kept.leads().stream().map(LedgerView::lead).collect(Collectors.joining("; "));
        Label instrument = wrapped(leads);
        instrument.getStyleClass().add("small");
        instrument.setVisible(!leads.isEmpty());
        instrument.setManaged(!leads.isEmpty());
        Button undo = new Button("Undo");
        undo.setId("undo-entry-" + (index + 1));
        undo.setMinWidth(Region.USE_PREF_SIZE);
        undo.setAccessibleText("Undo entry " + (index + 1) + ", " + kept.what());
        undo.setTooltip(new Tooltip("Undoes this entry; asks first if later entries depend on it"));
        undo.setOnAction(e -> ledger.undo(index));
        VBox texts = new VBox(1, what, who, edits, instrument);
        HBox.setHgrow(texts, Priority.ALWAYS);
        HBox row = new HBox(8, texts, undo);
        row.setAlignment(Pos.TOP_LEFT);
        row.getStyleClass().add("ledger-entry");
        ContextMenu menu = menu(index, kept);
        row.setOnContextMenuRequested(
                e -> {
                    menu.show(row, e.getScreenX(), e.getScreenY());
                    e.consume();
                });
        undo.setContextMenu(menu);
        return row;
    }

    /** Which lead is on a line: {@code Channel 2 on port out_J2.1: pod A, red}. */
    private static String lead(LedgerLead lead) {
        String more = lead.toText();
        return "Channel "
                + lead.channel()
                + " on port "
                + lead.port()
                + (more.isEmpty() ? "" : ": " + more);
    }

    /** What can be done with an entry. */
    private ContextMenu menu(int index, LedgerEntry kept) {
        ContextMenu menu = new ContextMenu();
        menu.getItems().add(ThingMenu.item("Undo this entry", () -> ledger.undo(index)));
        boolean oneNet =
                model.openedProperty()
                        .get()
                        .flatMap(o -> o.design().findNet(kept.net()))
                        .isPresent();
        if (oneNet) {
            menu.getItems()
                    .addAll(
                            ThingMenu.items(
                                    model, new NamedThing(NamedThing.Kind.NET, kept.net())));
        }
        menu.getItems().add(new SeparatorMenuItem());
        menu.getItems().add(ThingMenu.item("Copy this entry", () -> copy(List.of(index))));
        menu.getItems().add(ThingMenu.item("Copy all entries with heads", () -> copy(listed())));
        return menu;
    }

    private void copy(List<Integer> indices) {
        List<LedgerEntry> kept = ledger.kept();
        List<List<String>> rows = new ArrayList<>();
        for (int index : indices) {
            rows.add(line(index, kept.get(index)));
        }
        if (!rows.isEmpty()) {
            ThingMenu.copy(CsvText.of(HEADS, rows));
        }
    }

    private static List<String> line(int index, LedgerEntry entry) {
        return List.of(
                String.valueOf(index + 1),
                entry.net(),
                entry.pad(),
                entry.when(),
                entry.who(),
                entry.note(),
                entry.accepted().stream()
                        .map(LedgerEntry.Acceptance::what)
                        .collect(Collectors.joining("; ")),
                entry.edits().stream().map(Edit::toText).collect(Collectors.joining("; ")));
    }

    private static String edits(List<Edit> edits) {
        String few =
                edits.stream()
                        .limit(MOST_EDITS)
                        .map(Edit::toText)
                        .collect(Collectors.joining("; "));
        int more = edits.size() - MOST_EDITS;
        return more > 0 ? few + "; and " + more + " more" : few;
    }

    private void show(Optional<EntryRemoval> undoing) {
        pending.setVisible(undoing.isPresent());
        pending.setManaged(undoing.isPresent());
        pending.getChildren().clear();
        if (undoing.isEmpty()) {
            return;
        }
        pending.getChildren()
                .add(wrapped("Other entries depend on " + undoing.get().entry().what() + ":"));
        undoing.get()
                .dependents()
                .forEach(
                        d ->
                                pending.getChildren()
                                        .add(
                                                wrapped(
                                                        (d.index() + 1)
                                                                + ". "
                                                                + d.entry().what()
                                                                + ": without it, "
                                                                + d.reasons().get(0)
                                                                + ".")));
        int count = 1 + undoing.get().dependents().size();
        Button all = new Button("Undo all " + count);
        all.setId("undo-all-button");
        all.setOnAction(e -> ledger.undoPending());
        Button cancel = new Button("Cancel");
        cancel.setId("cancel-undo-button");
        cancel.setOnAction(e -> ledger.cancelPending());
        pending.getChildren().add(new HBox(8, all, cancel));
    }

    private void showAudit(Optional<ChangeAudit> found) {
        report.getChildren().clear();
        if (found.isEmpty()) {
            return;
        }
        ChangeAudit audit = found.get();
        Label title = new Label(audit.holds() ? "✓ Nothing else changed" : "✗ Unexpected changes");
        title.getStyleClass().add("side-title");
        report.getChildren().addAll(title, wrapped(audit.sentence()));
        audit.unlisted().forEach(u -> report.getChildren().add(wrapped("✗ " + u)));
        for (ChangeAudit.Touched one : audit.touched()) {
            String numbers =
                    one.entries().stream().map(String::valueOf).collect(Collectors.joining(", "));
            Label line =
                    wrapped(
                            one.kind().label()
                                    + " "
                                    + one.name()
                                    + ": "
                                    + one.how().label()
                                    + " by entry "
                                    + numbers);
            line.getStyleClass().add("small");
            report.getChildren().add(line);
        }
    }

    /**
     * A time in a form that is easy to read; other forms in a ledger file are shown as they are.
     */
    private static String time(String when) {
        return when.replaceFirst("^(\\d{4}-\\d\\d-\\d\\d)T(\\d\\d:\\d\\d)[:\\d.]*Z$", "$1 $2 UTC");
    }

    private static Label wrapped(String text) {
        return Controls.text(text);
    }
}
