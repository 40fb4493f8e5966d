//! What phones and doors show each other as QR codes.
