//! Faults that are planted to see that a checker finds them: each is one thing that the shipping code, a phone or a hub must
//! never do. No honest run has any.

/// What is done wrong, everywhere in a run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Planted {
    /// An act shows as done when it is written and before it is durable.
    PhoneShowsBeforeDurable,
    /// A crash keeps the first lines of an act and not the rest.
    DiskTearsAnAct,
    /// A full disk says that it wrote.
    FullDiskSaysYes,
    /// Cover is believed to hold longer than the rules say.
    CoverOutlivesItsTerm,
    /// The watch is taken to be over with the last spark.
    NoWatchAfterSparks,
    /// Whoever said nothing for two hours is dropped.
    StaleNamesDropped,
    /// A bell that rang is not noted.
    BellsForgotten,
    /// Bells are looked at in every ninth wake-up.
    BellsLookedAtSeldom,
    /// A bell is noted as rung and not rung.
    BellsSwallowed,
    /// The phone never says that its story has forked.
    ForkKeptQuiet,
    /// New rules hold at once, in sessions under way too.
    NewRulesAtOnce,
    /// A newer hub's words are not read.
    NewWordsUnread,
    /// The wall clock is believed, whatever it says.
    WallClockBelieved,
    /// What the hub says is to be forgotten is kept.
    PhoneForgetsNothing,
    /// What is in force is erased like the rest.
    HubErasesWhatIsInForce,
    /// What a phone was told to forget before an older copy was put back is believed to be told.
    HubForgetsLivesOfErasures,
    /// A phone that was away for longer than the log is kept is told nothing of that.
    HubForgetsWhoWasAway,
    /// The hub takes words on members from anybody.
    HubTakesAnybodysWord,
    /// Whoever mended a machine checks it.
    OneMendsAndChecks,
    /// Tags keep no machine from running.
    TaggedMachinesRun,
    /// The hub keeps no list of what it has.
    HubForgetsRepeats,
    /// The hub lets anybody say anything for anybody.
    HubBelievesAnyName,
    /// The hub says "taken" first and writes after.
    HubAnswersBeforeCommit,
    /// The last line of a change is not written.
    HubTearsItsChange,
    /// A page of news is cut, and the cursor goes past it.
    HubCursorRunsAhead,
    /// A cursor is believed that was told before an older copy was put back.
    HubForgetsLives,
    /// What a phone's later line vouches for is handed out, though it is not signed.
    HubBelievesVouched,
    /// Two processes change the store at once.
    HubWithoutLock,
    /// What arrives late is left out because it happened long ago.
    HubGoesByTheWriterClock,
}

impl Planted {
    pub(crate) const ALL: [Self; 29] = [
        Self::PhoneShowsBeforeDurable,
        Self::DiskTearsAnAct,
        Self::FullDiskSaysYes,
        Self::CoverOutlivesItsTerm,
        Self::NoWatchAfterSparks,
        Self::StaleNamesDropped,
        Self::BellsForgotten,
        Self::BellsLookedAtSeldom,
        Self::BellsSwallowed,
        Self::ForkKeptQuiet,
        Self::NewRulesAtOnce,
        Self::NewWordsUnread,
        Self::WallClockBelieved,
        Self::PhoneForgetsNothing,
        Self::HubErasesWhatIsInForce,
        Self::HubForgetsLivesOfErasures,
        Self::HubForgetsWhoWasAway,
        Self::HubTakesAnybodysWord,
        Self::OneMendsAndChecks,
        Self::TaggedMachinesRun,
        Self::HubForgetsRepeats,
        Self::HubBelievesAnyName,
        Self::HubAnswersBeforeCommit,
        Self::HubTearsItsChange,
        Self::HubCursorRunsAhead,
        Self::HubForgetsLives,
        Self::HubBelievesVouched,
        Self::HubWithoutLock,
        Self::HubGoesByTheWriterClock,
    ];
}
