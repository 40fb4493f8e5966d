//! Every refusal, its reason and its next step.
